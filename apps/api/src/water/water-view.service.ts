import { Injectable } from '@nestjs/common';
import { Clock } from '../clock/clock.js';
import { mapPage } from '../graphql/connection.js';
import type { KeysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { alertsOf } from './water-alerts.js';
import { toWaterReading, toWaterRule } from './water.mapper.js';
import type {
  WaterAlertModel,
  WaterPlaceModel,
  WaterReadingConnectionModel,
  WaterReadingModel,
  WaterRuleModel,
} from './water.model.js';
import type { WaterReadingRow } from '../stock/rows/water-reading.entity.js';
import { WaterRulesService } from './water-rules.service.js';
import { WaterService } from './water.service.js';

/** Readings as they stand now, judged by the person's rule. */
@Injectable()
export class WaterViewService {
  constructor(
    private readonly water: WaterService,
    private readonly rules: WaterRulesService,
    private readonly clock: Clock,
  ) {}

  async reading(row: WaterReadingRow, person: SignedInPerson): Promise<WaterReadingModel> {
    return toWaterReading(row, (await this.rules.of(person.id)).rule, this.clock.now());
  }

  async readings(
    page: KeysetPage<WaterReadingRow>,
    person: SignedInPerson,
  ): Promise<WaterReadingConnectionModel> {
    const { rule } = await this.rules.of(person.id);
    const now = this.clock.now();
    return mapPage(page, (row) => toWaterReading(row, rule, now));
  }

  async rule(person: SignedInPerson): Promise<WaterRuleModel> {
    const { rule, own } = await this.rules.of(person.id);
    return toWaterRule(rule, own);
  }

  async places(person: SignedInPerson): Promise<WaterPlaceModel[]> {
    const [{ rule }, places] = await Promise.all([
      this.rules.of(person.id),
      this.water.places(person),
    ]);
    const now = this.clock.now();
    return places.map(({ latest, ...place }) => ({
      ...place,
      latest: toWaterReading(latest, rule, now),
    }));
  }

  async alerts(person: SignedInPerson): Promise<WaterAlertModel[]> {
    const [rule, places] = await Promise.all([this.rule(person), this.places(person)]);
    return alertsOf(places, rule, this.clock.now());
  }
}
