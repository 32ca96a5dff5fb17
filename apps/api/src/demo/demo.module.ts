import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { DemoResolver } from './demo.resolver.js';
import { DemoService } from './demo.service.js';

@Module({ imports: [AccountsModule], providers: [DemoService, DemoResolver] })
export class DemoModule {}
