import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { HistoryResolver } from './history.resolver.js';

/** What became of one record. */
@Module({ imports: [StockModule], providers: [HistoryResolver] })
export class HistoryModule {}
