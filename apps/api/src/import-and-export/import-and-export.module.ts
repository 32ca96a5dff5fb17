import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { ExportController } from './export.controller.js';
import { ExportService } from './export.service.js';
import { ImportsResolver } from './imports.resolver.js';
import { ImportsService } from './imports.service.js';
import { ImportRunsService } from './import-runs.service.js';
import { PastImportsResolver } from './past-imports.resolver.js';
import { PastImportsService } from './past-imports.service.js';
import { SheetsController } from './sheets.controller.js';

@Module({
  imports: [AccountsModule, JobsModule],
  controllers: [ExportController, SheetsController],
  providers: [
    ExportService,
    ImportsService,
    ImportRunsService,
    ImportsResolver,
    PastImportsService,
    PastImportsResolver,
  ],
})
export class ImportAndExportModule {}
