import { ammoniaLimits, fahrenheitHint, usualTrustHours } from '@linewright/care';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { expectFigure } from './expect-figure.js';
import type { WaterRuleInput } from './water.inputs.js';
import { WaterRuleRow } from '../stock/rows/water-rule.entity.js';

const usualLimit = ammoniaLimits.find((limit) => limit.id === 'guidance');

/** The person's rule for judging readings, or the usual one. */
@Injectable()
export class WaterRulesService {
  constructor(private readonly dataSource: DataSource) {}

  async of(personId: string): Promise<{ rule: WaterRuleRow; own: boolean }> {
    const repository = this.dataSource.getRepository(WaterRuleRow);
    const row = await repository.findOneBy({ personId });
    if (row !== null) return { rule: row, own: true };
    const usual = {
      personId,
      limitValue: usualLimit?.value ?? 0.02,
      limitUnit: usualLimit?.unit ?? 'NH3',
      trustHours: usualTrustHours,
      sourceTotal: 0,
      sourcePh: null,
      sourceCelsius: null,
    };
    return { rule: repository.create(usual), own: false };
  }

  async set(personId: string, input: WaterRuleInput): Promise<void> {
    expectFigure('limit', 'The limit (mg/L)', input.limit, 0.0001, 10);
    expectFigure('trustHours', 'The hours for which a reading counts', input.trustHours, 1, 720);
    expectFigure('sourceTotalAsN', 'Ammonia of the new water (mg/L)', input.sourceTotalAsN, 0, 100);
    expectFigure('sourcePH', 'The pH of the new water', input.sourcePH, 4, 11);
    expectFigure(
      'sourceCelsius',
      'The temperature of the new water (°C)',
      input.sourceCelsius,
      0,
      50,
      fahrenheitHint(input.sourceCelsius ?? 0),
    );
    await this.dataSource.getRepository(WaterRuleRow).save({
      personId,
      limitValue: input.limit,
      limitUnit: input.limitUnit,
      trustHours: input.trustHours,
      sourceTotal: input.sourceTotalAsN ?? 0,
      sourcePh: input.sourcePH ?? null,
      sourceCelsius: input.sourceCelsius ?? null,
    });
  }
}
