import { Module } from '@nestjs/common';
import { PhotoFiles } from './photo-files.js';

/** Files that lie beside the database. */
@Module({ providers: [PhotoFiles], exports: [PhotoFiles] })
export class PhotoFilesModule {}
