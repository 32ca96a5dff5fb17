import { type DynamicModule, Global, Module } from '@nestjs/common';
import { Clock } from './clock.js';

@Global()
@Module({})
export class ClockModule {
  static with(clock: Clock): DynamicModule {
    return {
      module: ClockModule,
      providers: [{ provide: Clock, useValue: clock }],
      exports: [Clock],
    };
  }
}
