import { Module } from '@nestjs/common';
import { StockModule } from '../stock/stock.module.js';
import { AccountsModule } from '../accounts/accounts.module.js';
import { PhotoFilesModule } from '../photo-files/photo-files.module.js';
import { LociModule } from '../loci/loci.module.js';
import { FishPicturesResolver } from './fish-pictures.resolver.js';
import { FishPicturesService } from './fish-pictures.service.js';
import { PhotosController } from './photos.controller.js';
import { FishPhotosResolver, PhotosResolver, SpawnPhotosResolver } from './photos.resolver.js';
import { PhotosService } from './photos.service.js';

@Module({
  imports: [AccountsModule, StockModule, PhotoFilesModule, LociModule],
  controllers: [PhotosController],
  providers: [
    ...[PhotosService, PhotosResolver, FishPhotosResolver, SpawnPhotosResolver],
    ...[FishPicturesService, FishPicturesResolver],
  ],
  exports: [PhotosService],
})
export class PhotosModule {}
