import { Module } from '@nestjs/common';
import { RecordStore } from '../stock/record-store.js';
import { HistoryResolver } from './history.resolver.js';
import { HistoryService } from '../stock/history.service.js';

@Module({
  providers: [HistoryService, HistoryResolver, RecordStore],
  exports: [HistoryService, RecordStore],
})
export class HistoryModule {}
