import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { PhotoFilesModule } from '../photo-files/photo-files.module.js';
import { PhotosController } from './photos.controller.js';
import { FishPhotosResolver, PhotosResolver, SpawnPhotosResolver } from './photos.resolver.js';
import { PhotosService } from './photos.service.js';

@Module({
  imports: [AccountsModule, StockModule, PhotoFilesModule],
  controllers: [PhotosController],
  providers: [PhotosService, PhotosResolver, FishPhotosResolver, SpawnPhotosResolver],
  exports: [PhotosService],
})
export class PhotosModule {}
