import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { PhotosModule } from '../photos/photos.module.js';
import { DemoResolver } from './demo.resolver.js';
import { DemoService } from './demo.service.js';

@Module({ imports: [AccountsModule, PhotosModule], providers: [DemoService, DemoResolver] })
export class DemoModule {}
