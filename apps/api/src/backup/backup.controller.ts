import { Controller, Get, Param, StreamableFile, UseGuards } from '@nestjs/common';
import { ForOwner, SessionGuard } from '../accounts/session.guard.js';
import { BackupsService } from './backups.service.js';

@Controller('export/backup')
@UseGuards(SessionGuard)
@ForOwner()
export class BackupController {
  constructor(private readonly backups: BackupsService) {}

  @Get(':id')
  async file(@Param('id') id: string): Promise<StreamableFile> {
    const { fileName, bytes, stream } = await this.backups.open(id);
    return new StreamableFile(stream, {
      type: 'application/zip',
      disposition: `attachment; filename="${fileName}"`,
      length: bytes,
    });
  }
}
