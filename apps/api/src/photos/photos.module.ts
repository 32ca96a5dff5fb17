import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { HistoryModule } from '../history/history.module.js';
import { PhotoFiles } from '../files/photo-files.js';
import { PhotoLoader } from './photo.loader.js';
import { PhotosController } from './photos.controller.js';
import { FishPhotosResolver, PhotosResolver, SpawnPhotosResolver } from './photos.resolver.js';
import { PhotosService } from './photos.service.js';

@Module({
  imports: [AccountsModule, HistoryModule],
  controllers: [PhotosController],
  providers: [
    PhotoFiles,
    PhotosService,
    PhotoLoader,
    PhotosResolver,
    FishPhotosResolver,
    SpawnPhotosResolver,
  ],
  exports: [PhotosService, PhotoFiles],
})
export class PhotosModule {}
