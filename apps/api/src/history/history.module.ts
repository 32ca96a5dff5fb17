import { Module } from '@nestjs/common';
import { RecordStore } from '../database/record-store.js';
import { HistoryResolver } from './history.resolver.js';
import { HistoryService } from './history.service.js';

@Module({
  providers: [HistoryService, HistoryResolver, RecordStore],
  exports: [HistoryService, RecordStore],
})
export class HistoryModule {}
