import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { ComputationsResolver } from './computations.resolver.js';
import { ComputationsService } from './computations.service.js';
import { JobQueue } from './job-queue.js';

/** Long computations on pg-boss, shared by the processes on one database. */
@Module({
  imports: [AccountsModule],
  providers: [JobQueue, ComputationsService, ComputationsResolver],
  exports: [ComputationsService, JobQueue],
})
export class JobsModule {}
