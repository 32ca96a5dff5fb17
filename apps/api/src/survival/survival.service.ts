import {
  DAY,
  bandOf,
  broodLives,
  compareWithPast,
  kaplanMeier,
  livesForEstimate,
  pooledSurvival,
  type BroodLives,
  type BroodRecord,
  type CullReading,
  type SurvivalStep,
} from '@linewright/care';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { notFound } from '../errors/request-error.js';
import {
  type CountedStage,
  countedSpawns,
  spawnsBefore,
  type CountedSpawn,
} from '../stock/spawn-rows.js';
import type {
  SpawnSurvivalModel,
  SurvivalReadingModel,
  SurvivalStart,
  SurvivalStepModel,
} from './survival.model.js';

/** What becomes of grown fish later is not the brood's survival. */
const LAST_DAY = 180;
const MOST_PAST_SPAWNS = 200;

const dayNumber = (date: string): number => Math.round(Date.parse(`${date}T00:00:00Z`) / DAY);

const starts: readonly SurvivalStart[] = ['eggs', 'hatched', 'free_swimming'];
const words: Readonly<Record<string, string>> = {
  eggs: 'eggs',
  hatched: 'hatched',
  free_swimming: 'free-swimming',
  two_weeks: 'two weeks',
  jarred: 'jarred',
  sorted: 'sorted',
};
const stageOrder = Object.keys(words);
const AGAIN = 'withdraw the wrong one and record it again.';
const numberOf = ({ stage, number }: CountedStage): string => `${number} ${words[stage] ?? stage}`;

/**
 * The largest count of a stage: hatching takes a day, so that an earlier one may be of a part; a later one has lost some. Of
 * several on one day the last recorded holds.
 */
const startOf = (counted: CountedSpawn, stage: SurvivalStart): CountedStage | undefined => {
  const byDay = new Map(
    counted.counts.filter((count) => count.stage === stage).map((count) => [count.on, count]),
  );
  return [...byDay.values()].sort((a, b) => b.number - a.number)[0];
};

const isLater = (count: CountedStage, start: CountedStage): boolean =>
  stageOrder.indexOf(count.stage) > stageOrder.indexOf(start.stage);

/** Counts of earlier stages say nothing about the brood from its start on. */
const recordFrom = (counted: CountedSpawn, from: SurvivalStart): BroodRecord | null => {
  const start = startOf(counted, from);
  if (start === undefined) return null;
  const toCount = ({ stage, on, number }: CountedStage) => ({
    day: dayNumber(on),
    number,
    label: words[stage] ?? stage,
  });
  return {
    start: toCount(start),
    counts: counted.counts
      .filter((count) => isLater(count, start) || (count.stage === from && count.on > start.on))
      .map(toCount),
    departures: counted.departures.map(({ kind, on, number }) => ({
      day: dayNumber(on),
      number,
      kind,
    })),
  };
};

const livesFrom = (counted: CountedSpawn, from: SurvivalStart): BroodLives | null => {
  const record = recordFrom(counted, from);
  return record === null ? null : broodLives(record, LAST_DAY);
};

const toStep = (step: SurvivalStep): SurvivalStepModel => ({
  day: step.day,
  atRisk: step.atRisk,
  deaths: step.deaths,
  withdrawn: step.withdrawn,
  survival: step.survival,
  standardError: Math.sqrt(step.variance),
  low: step.interval?.low ?? null,
  high: step.interval?.high ?? null,
});

const toReading = (
  own: BroodLives,
  past: readonly BroodLives[],
  reading: CullReading,
): SurvivalReadingModel => {
  const steps = kaplanMeier(own.started, livesForEstimate(own, reading));
  const band = bandOf(past, reading);
  return {
    steps: steps.map(toStep),
    pooled: past.length === 0 ? [] : pooledSurvival(past, reading).map(toStep),
    band,
    comparison: compareWithPast(steps, own.lastDay, band),
  };
};

type Warnings = SpawnSurvivalModel['warnings'];

/** Counts before the start of the curve can contradict each other too. */
const earlierStages = (counted: CountedSpawn, from: SurvivalStart): Warnings =>
  starts.slice(0, starts.indexOf(from)).flatMap((stage, i) => {
    const before = startOf(counted, stage);
    const after = startOf(counted, starts[i + 1] ?? from);
    if (before === undefined || after === undefined || after.number <= before.number) return [];
    return [
      {
        code: 'COUNT_ROSE',
        day: dayNumber(after.on) - dayNumber(before.on),
        message: `${numberOf(after)} of ${numberOf(before)}: one of the two counts is wrong; ${AGAIN}`,
      },
    ];
  });

/** A later stage counted on an earlier day is left out of the curve: one of the two days is wrong. */
const tooEarly = (counted: CountedSpawn, from: SurvivalStart): Warnings => {
  const start = startOf(counted, from);
  if (start === undefined) return [];
  return counted.counts
    .filter((count) => isLater(count, start) && count.on < start.on)
    .map((count) => ({
      code: 'COUNT_TOO_EARLY',
      day: dayNumber(count.on) - dayNumber(start.on),
      message: `${numberOf(count)} counted on ${count.on}, before ${numberOf(start)} on ${start.on}: not counted. One of the two days is wrong; ${AGAIN}`,
    }));
};

/** Survival of a brood beside the same person's earlier ones. */
@Injectable()
export class SurvivalService {
  constructor(private readonly dataSource: DataSource) {}

  async of(
    spawnId: string,
    wanted: SurvivalStart | null,
    sameLine: boolean,
  ): Promise<SpawnSurvivalModel> {
    const [counted] = await this.counted([spawnId]);
    if (counted === undefined) throw notFound('spawn', spawnId);
    const possible = starts.filter((stage) =>
      counted.counts.some((count) => count.stage === stage),
    );
    const usual = possible.includes('hatched') ? 'hatched' : (possible[0] ?? 'hatched');
    const from = wanted ?? usual;
    const record = recordFrom(counted, from);
    const own = record === null ? null : broodLives(record, LAST_DAY);
    const { past, passedOver } =
      own === null ? { past: [], passedOver: 0 } : await this.past(spawnId, from, sameLine);
    return {
      spawnId,
      from,
      possible: [...possible],
      started: own?.started ?? null,
      startedOn:
        record === null ? null : new Date(record.start.day * DAY).toISOString().slice(0, 10),
      left: own?.left ?? null,
      lastDay: own?.lastDay ?? null,
      days: [...(own?.days ?? [])],
      warnings: [
        ...(own?.warnings ?? []),
        ...earlierStages(counted, from),
        ...tooEarly(counted, from),
      ],
      allLosses: own === null ? null : toReading(own, past, 'all-losses'),
      deathsOnly: own === null ? null : toReading(own, past, 'deaths-only'),
      pastSpawns: past.length,
      pastSpawnsPassedOver: passedOver,
      pastFish: past.reduce((sum, lives) => sum + lives.started, 0),
    };
  }

  private async past(
    spawnId: string,
    from: SurvivalStart,
    sameLine: boolean,
  ): Promise<{ past: BroodLives[]; passedOver: number }> {
    const found = await spawnsBefore(this.dataSource, spawnId, sameLine, MOST_PAST_SPAWNS);
    const broods = await this.counted(found.map(({ id }) => id));
    const past = broods
      .map((counted) => livesFrom(counted, from))
      .filter((lives) => lives !== null && lives.started > 0) as BroodLives[];
    return { past, passedOver: (found[0]?.inAll ?? 0) - found.length };
  }

  private async counted(ids: readonly string[]): Promise<CountedSpawn[]> {
    return ids.length === 0 ? [] : countedSpawns(this.dataSource, ids);
  }
}
