import { Injectable } from '@nestjs/common';
import type { Pedigree } from '@linewright/pedigree';
import { DataSource, type EntityManager } from 'typeorm';
import { onceARequest } from '../graphql/once-a-request.js';
import { LastUsed } from '../jobs/last-used.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import {
  besideTraits,
  type FishFactRow,
  fishFacts,
  lineCodes,
  looksForTrait,
  looksInForce,
  looksRecordedSince,
  type LookRow,
  meritState,
  type SortedBroodRow,
  sortedBroods,
  spawnLines,
  stateBesideScores,
  sumOfLooks,
} from '../stock/merit-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { traitRecord } from '../stock/record-types.js';
import type { TraitDefinitionRow } from '../stock/rows/score.entity.js';
import type { BesideTrait } from './beside-columns.js';
import { buildTask, type BuiltTask } from './build-task.js';
import { looksTaken } from './looks-taken.js';
import { keyOf } from './task-key.js';
import { TraitModelsService } from './trait-models.service.js';
import { settingsIn, type TraitSettings, usualSettings } from './trait-settings.js';

/** The records behind one trait's breeding values. */
export interface TraitStock extends BuiltTask {
  readonly trait: TraitDefinitionRow;
  readonly settings: TraitSettings;
  /** Of the record that sets them; 0 while they are the usual ones. */
  readonly settingsRevision: number;
  readonly pedigree: Pedigree;
  readonly inbreeding: Float64Array;
  readonly beside: readonly BesideTrait[];
  readonly looks: readonly LookRow[];
  /** Of these, those that are the task's rows. */
  readonly looksTaken: readonly LookRow[];
  readonly otherVersions: number;
  readonly facts: ReadonlyMap<string, FishFactRow>;
  readonly broods: readonly SortedBroodRow[];
  readonly lineOfSpawn: ReadonlyMap<string, string | null>;
  readonly codeOfLine: ReadonlyMap<string, string>;
  /** Changes with everything that the figures are made from, and with nothing else. */
  readonly key: string;
  /** Looks under every version of the trait. */
  readonly allLooks: readonly LookRow[];
  /** Keys of stocks that this process read before, which had fewer looks and differed in nothing else. */
  readonly grownFrom: readonly string[];
}

const MOST_HELD = 30;
/** Keys that a stock is told to have grown from: as many as scores are taken into a last solution. */
const MOST_BEFORE = 12;

/** What was read last of a trait, and the state of all but the scores then. */
interface LastRead {
  readonly state: string;
  readonly stock: TraitStock;
}

/** Reads the records behind breeding values and keeps what was read as long as nothing of it changed. */
@Injectable()
export class TraitRecordsService {
  private readonly held = new Map<string, Promise<TraitStock>>();
  private heldState: string | null = null;
  private readonly last = new LastUsed<LastRead>(MOST_HELD);

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly pedigrees: PedigreeService,
    private readonly models: TraitModelsService,
  ) {}

  async of(traitId: string): Promise<TraitStock> {
    const state = await onceARequest(this, () => meritState(this.dataSource));
    if (this.heldState !== state || this.held.size > MOST_HELD) this.held.clear();
    this.heldState = state;
    const standing = this.held.get(traitId);
    if (standing !== undefined) return standing;
    const stock = this.read(traitId);
    this.held.set(traitId, stock);
    stock.catch(() => this.held.delete(traitId));
    return stock;
  }

  /** Traits that still stand, with their looks, in the order they were named. */
  private async besideOf(manager: EntityManager, ids: readonly string[]): Promise<BesideTrait[]> {
    const found: BesideTrait[] = [];
    for (const { version, ...trait } of ids.length === 0 ? [] : await besideTraits(manager, ids)) {
      const looks = await looksForTrait(manager, trait.id);
      found.push({ ...trait, looks: looks.filter((look) => look.version === version) });
    }
    return found;
  }

  private async read(traitId: string): Promise<TraitStock> {
    const state = await stateBesideScores(this.dataSource);
    const last = this.last.get(traitId);
    const grown = last?.state === state ? await this.grown(last.stock) : null;
    const stock = grown ?? (await this.readAll(traitId));
    this.last.keep(traitId, { state, stock });
    return stock;
  }

  /** A stock with the looks that came to it, where nothing else changed; null where more did. Cost: what is made of it, and few rows. */
  private async grown(stock: TraitStock): Promise<TraitStock | null> {
    const manager = this.dataSource.manager;
    const { trait, allLooks, facts, pedigree } = stock;
    // Looks at own traits beside it may have changed as well.
    if (stock.beside.length > 0 || allLooks.length === 0) return null;
    const newest = Math.max(...allLooks.map(({ recordedAt }) => recordedAt));
    const known = new Set(allLooks.map(({ id }) => id));
    const since = await looksRecordedSince(manager, trait.id, newest);
    const added = since.filter(({ id }) => !known.has(id));
    const now = await looksInForce(manager, trait.id);
    const all = [...allLooks, ...added].sort(byFishAndDay);
    if (now.count !== all.length || now.sum !== sumOfLooks(all)) return null;
    if (added.some(({ fishId }) => !pedigree.has(fishId))) return null;
    const counted = new Set(stock.broods.map(({ spawnId }) => spawnId));
    const sameBroods = added.every(({ fishId }) => {
      const spawn = facts.get(fishId)?.spawnId ?? null;
      return spawn === null || counted.has(spawn);
    });
    const broods = sameBroods ? stock.broods : await this.broodsOf(trait);
    const grownFrom = [...stock.grownFrom, stock.key].slice(-MOST_BEFORE);
    return stockOf({ ...stock, broods, allLooks: all, grownFrom });
  }

  private broodsOf({ id, name, key }: TraitDefinitionRow): Promise<SortedBroodRow[]> {
    const words = [name, key.replaceAll('_', ' ')].map((word) => word.toLowerCase());
    return sortedBroods(this.dataSource.manager, id, words);
  }

  private async readAll(traitId: string): Promise<TraitStock> {
    const manager = this.dataSource.manager;
    const trait = await this.records.find(manager, traitRecord, traitId);
    const model = await this.models.standing(manager, trait.id);
    const settings = model === null ? usualSettings(trait.kind) : settingsIn(model);
    const allLooks = await looksForTrait(manager, trait.id);
    const facts = new Map((await fishFacts(manager)).map((one) => [one.id, one]));
    const spawns = await spawnLines(manager);
    const codes = await lineCodes(manager);
    const broods = await this.broodsOf(trait);
    // Asked for after the fish, so that it has every one of them.
    const { pedigree, inbreeding } = await this.pedigrees.state();
    return stockOf({
      ...{ trait, settings, pedigree, facts, broods, inbreeding, allLooks },
      beside: await this.besideOf(manager, settings.besideTraitIds),
      lineOfSpawn: new Map(spawns.map(({ id, lineId }) => [id, lineId])),
      codeOfLine: new Map(codes.map(({ id, code }) => [id, code])),
      settingsRevision: model?.revision ?? 0,
      grownFrom: [],
    });
  }
}

type Read = Omit<TraitStock, keyof BuiltTask | 'looks' | 'looksTaken' | 'otherVersions' | 'key'>;

/** What is made of records once they are read. */
const stockOf = (read: Read): TraitStock => {
  const { allLooks, trait, pedigree } = read;
  const looks = allLooks.filter(
    ({ version, fishId }) => version === trait.version && pedigree.has(fishId),
  );
  const taken = looksTaken(looks);
  const built = buildTask({ ...read, ...taken });
  return {
    ...read,
    ...built,
    ...{ looks, looksTaken: taken.looks },
    otherVersions: allLooks.length - looks.length,
    key: keyOf(built, pedigree),
  };
};

const order = (one: string | number, other: string | number): number =>
  one < other ? -1 : one > other ? 1 : 0;

/** As the database puts looks in order. */
const byFishAndDay = (one: LookRow, other: LookRow): number =>
  order(one.fishId, other.fishId) ||
  order(one.scoredOn, other.scoredOn) ||
  order(one.recordedAt, other.recordedAt) ||
  order(one.id, other.id);
