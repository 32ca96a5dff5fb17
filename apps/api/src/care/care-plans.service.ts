import {
  DAY,
  carePlan,
  dayAfter,
  dayIn,
  defaultTemplate,
  occurrences,
  startOfDay,
  type CareOccurrence,
  type CarePlan,
} from '@linewright/care';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { FishLoader } from '../stock/fish.loader.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { PairingLoader } from '../stock/pairing.loader.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { spawnsHeardOf } from '../stock/spawn-rows.js';
import { type LogRecord, logOf } from './care-log.js';
import { CareLoader } from '../stock/care.loader.js';
import type { TemplateInUse } from './care.mapper.js';

/** A spawn nothing was recorded of for so long is taken as over. */
const QUIET_DAYS = 200;
const MOST_DAYS = 62;

export interface SpawnPlan {
  readonly spawn: SpawnRow;
  readonly inUse: TemplateInUse;
  readonly log: readonly LogRecord[];
  readonly plan: CarePlan;
}

export interface SpawnTask {
  readonly from: SpawnPlan;
  readonly one: CareOccurrence;
  readonly day: string;
}

/** Plans made from the records: nothing of a plan is stored. */
@Injectable()
export class CarePlansService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly spawns: SpawnLoader,
    private readonly fish: FishLoader,
    private readonly pairings: PairingLoader,
    private readonly loader: CareLoader,
  ) {}

  async ofSpawn(spawn: SpawnRow, at: Date, context: object): Promise<SpawnPlan> {
    const [events, counts, fish, records, pairing, row] = await Promise.all([
      this.spawns.events.of(context).load(spawn.id),
      this.spawns.counts.of(context).load(spawn.id),
      this.fish.bySpawn.of(context).load(spawn.id),
      this.loader.records.of(context).load(spawn.id),
      spawn.pairingId === null ? null : this.pairings.byId.of(context).load(spawn.pairingId),
      spawn.lineId === null ? null : this.loader.templates.of(context).load(spawn.lineId),
    ]);
    const template = row === null ? defaultTemplate : { name: row.name, steps: row.steps };
    const log = logOf({
      spawn,
      events,
      records,
      pairing,
      hasYoung: counts.length > 0 || fish.length > 0,
    });
    const plan = carePlan({ template, records: log, now: at.getTime() });
    return { spawn, inUse: { template, row }, log, plan };
  }

  async live(person: SignedInPerson, at: Date, context: object): Promise<SpawnPlan[]> {
    const since = new Date(at.getTime() - QUIET_DAYS * DAY).toISOString();
    const ids = await spawnsHeardOf(this.dataSource, person.id, since);
    const rows = await this.spawns.byId.of(context).loadMany(ids);
    const found = rows.filter((row): row is SpawnRow => row !== null && !(row instanceof Error));
    return Promise.all(found.map((spawn) => this.ofSpawn(spawn, at, context)));
  }

  /**
   * What the person's live spawns ask for on the days `from` to `to` of a time zone, soonest first: all that is open or
   * overdue stands on the first day.
   */
  async tasks(
    person: SignedInPerson,
    range: { from: string; to: string; zone: string },
    at: Date,
    context: object,
  ): Promise<SpawnTask[]> {
    const { from, to, zone } = range;
    if (to < from || to > dayAfter(from, MOST_DAYS)) {
      throw fieldError({
        field: 'to',
        message: `${from} to ${to} is not a possible period: give up to ${MOST_DAYS} days, the earlier day first.`,
      });
    }
    const end = startOfDay(dayAfter(to, 1), zone) - 1;
    const plans = await this.live(person, at, context);
    return plans
      .flatMap((plan) =>
        occurrences(plan.plan, end).map((one) => {
          const opens = dayIn(one.from, zone);
          const open = one.state !== 'upcoming' || opens < from;
          return { from: plan, one, day: open ? from : opens };
        }),
      )
      .sort((a, b) => a.one.about - b.one.about || (a.one.key < b.one.key ? -1 : 1));
  }
}
