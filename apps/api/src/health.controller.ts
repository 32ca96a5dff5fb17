import { Controller, Get } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from './access/acting.js';
import { WithoutSession } from './accounts/session.guard.js';

@Controller('healthz')
export class HealthController {
  constructor(private readonly dataSource: DataSource) {}

  /** For a proxy or a script: 200 once the API answers and its database does. */
  @WithoutSession()
  @Get()
  async health(): Promise<{ status: 'ok' }> {
    await asSystem('health', () => this.dataSource.query('SELECT 1'));
    return { status: 'ok' };
  }
}
