import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import { ComputationsService } from '../jobs/computations.service.js';
import { KeptAnswers } from '../jobs/kept-answers.js';
import { toTrait } from '../shapes/score.mapper.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { SizePointModel, TraitInbreedingLoadModel } from './line-load.model.js';
import type { MeasuredSizes, MeasureLoad } from './measure-load.js';
import { fishSizesProgram } from './merit-programs.js';
import { taskOfRows } from './task-of-rows.js';
import { meanOf } from './trait-figures.js';
import { toRefusal } from './trait-merit.mapper.js';
import { type TraitStock, TraitRecordsService } from './trait-records.service.js';

const KIND = 'inbreeding and a measure';
/** Raised whenever answers get another shape: those stored in an older one are not served. */
const SHAPE = '2';
const MOST_HELD = 20;
/** The latest looks; those left out are told. */
const MOST_LOOKS = 3_000;

/** What inbreeding does to a measured trait in a line. */
@Injectable()
export class TraitLoadService {
  private readonly kept: KeptAnswers<MeasureLoad>;

  constructor(
    private readonly dataSource: DataSource,
    private readonly store: RecordStore,
    private readonly records: TraitRecordsService,
    computations: ComputationsService,
  ) {
    this.kept = new KeptAnswers(computations, MOST_HELD);
  }

  async of(traitId: string, lineId: string, by: string): Promise<TraitInbreedingLoadModel> {
    const line = await this.store.find(this.dataSource.manager, lineRecord, lineId);
    const stock = await this.records.of(traitId);
    if (stock.trait.kind !== 'measured')
      throw fieldError({
        field: 'traitId',
        message: `${stock.trait.name} is not measured: choose a trait with a size in a unit.`,
      });
    const { sizes, fish, looksLeftOut, spawnOf } = sizesOf(stock, line.id);
    const wanted = {
      kind: KIND,
      subject: JSON.stringify([stock.trait.id, line.id]),
      evidence: keyOf(sizes),
    };
    const load = await this.kept.atOnce(wanted, by, () => besideTheLoop(fishSizesProgram, sizes));
    return {
      trait: toTrait(stock.trait),
      fish,
      broods: sizes.broods,
      looksLeftOut,
      changes: [...load.changes],
      byAge: [...load.byAge],
      level: load.level,
      points: pointsOf(stock, sizes, spawnOf, load.sizes),
      refusal: toRefusal(load.refusal),
    };
  }
}

/** Each brood by the mean of its scores; fish of no brood on record are in none. */
const pointsOf = (
  { broods }: TraitStock,
  { young }: MeasuredSizes,
  spawnOf: readonly (string | null)[],
  sizes: readonly number[],
): SizePointModel[] => {
  const rowsOf = new Map<string | null, number[]>();
  for (const row of sizes.keys()) {
    const spawnId = spawnOf[row]!;
    const rows = rowsOf.get(spawnId);
    if (rows === undefined) rowsOf.set(spawnId, [row]);
    else rows.push(row);
  }
  return broods.flatMap(({ spawnId, tag }): SizePointModel[] => {
    const rows = rowsOf.get(spawnId);
    if (rows === undefined) return [];
    const mean = (of: ArrayLike<number>): number => meanOf(rows.map((row) => of[row]!));
    return [{ spawnId, tag, young: mean(young), size: mean(sizes), counted: rows.length }];
  });
};

/** The latest of some looks, in the order in which they stand. */
export const latestRows = (
  rows: readonly number[],
  looks: readonly { readonly scoredOn: string }[],
  most: number,
): number[] =>
  rows
    .toSorted((a, b) => looks[a]!.scoredOn.localeCompare(looks[b]!.scoredOn) || a - b)
    .slice(-most)
    .sort((a, b) => a - b);

/** Looks at fish of the line whose parents are both on record: of others F is not known. */
const sizesOf = (
  { task, looks, pedigree: whole, inbreeding, facts }: TraitStock,
  lineId: string,
): {
  readonly sizes: MeasuredSizes;
  readonly fish: number;
  readonly looksLeftOut: number;
  /** Brood of each row. */
  readonly spawnOf: readonly (string | null)[];
} => {
  const all = [...task.fish.keys()].filter((row) => {
    const i = task.fish[row]!;
    const known = whole.sire[i]! >= 0 && whole.dam[i]! >= 0;
    return known && facts.get(whole.ids[i]!)?.lineId === lineId;
  });
  const rows = latestRows(all, looks, MOST_LOOKS);
  const fish = rows.map((row) => task.fish[row]!);
  const spawnOf = fish.map((i) => facts.get(whole.ids[i]!)?.spawnId ?? null);
  const broods = new Set(fish.map((i, row) => spawnOf[row] ?? whole.ids[i]!));
  return {
    spawnOf,
    fish: new Set(fish).size,
    looksLeftOut: all.length - rows.length,
    sizes: {
      young: Float64Array.from(fish, (i) => inbreeding[i]!),
      dam: Float64Array.from(fish, (i) => inbreeding[whole.dam[i]!]!),
      broods: broods.size,
      task: taskOfRows(task, whole, rows),
    },
  };
};

const keyOf = ({ task, young, dam, broods }: MeasuredSizes): string => {
  const hash = createHash('sha256').update(SHAPE);
  for (const array of [task.sire, task.dam, task.fish, task.values, young, dam]) hash.update(array);
  hash.update(task.hidden ?? '').update(task.age ?? '');
  for (const { name, levels, codes } of [...task.fixed, ...task.shared])
    hash.update(JSON.stringify([name, levels])).update(codes);
  return hash.update(JSON.stringify([task.trait, task.looks, broods])).digest('hex');
};
