import { Injectable } from '@nestjs/common';
import type { Pedigree } from '@linewright/pedigree';
import { DataSource, type EntityManager } from 'typeorm';
import { onceARequest } from '../graphql/once-a-request.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import {
  besideTraits,
  type FishFactRow,
  fishFacts,
  lineCodes,
  looksForTrait,
  type LookRow,
  meritState,
  type SortedBroodRow,
  sortedBroods,
  spawnLines,
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
}

const MOST_HELD = 30;

/** Reads the records behind breeding values and keeps what was read as long as nothing of it changed. */
@Injectable()
export class TraitRecordsService {
  private readonly held = new Map<string, Promise<TraitStock>>();
  private heldState: string | null = null;

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
    const manager = this.dataSource.manager;
    const trait = await this.records.find(manager, traitRecord, traitId);
    const model = await this.models.standing(manager, trait.id);
    const settings = model === null ? usualSettings(trait.kind) : settingsIn(model);
    const all = await looksForTrait(manager, trait.id);
    const facts = new Map((await fishFacts(manager)).map((one) => [one.id, one]));
    const spawns = await spawnLines(manager);
    const codes = await lineCodes(manager);
    const words = [trait.name, trait.key.replaceAll('_', ' ')].map((word) => word.toLowerCase());
    const broods = await sortedBroods(manager, trait.id, words);
    // Asked for after the fish, so that it has every one of them.
    const { pedigree, inbreeding } = await this.pedigrees.state();
    const looks = all.filter(
      ({ version, fishId }) => version === trait.version && pedigree.has(fishId),
    );
    const records = {
      beside: await this.besideOf(manager, settings.besideTraitIds),
      ...{ trait, settings, pedigree, looks, facts },
      lineOfSpawn: new Map(spawns.map(({ id, lineId }) => [id, lineId])),
      codeOfLine: new Map(codes.map(({ id, code }) => [id, code])),
    };
    const taken = looksTaken(looks);
    const built = buildTask({ ...records, ...taken });
    return {
      ...records,
      ...built,
      settingsRevision: model?.revision ?? 0,
      inbreeding,
      looksTaken: taken.looks,
      otherVersions: all.length - looks.length,
      broods,
      key: keyOf(built, pedigree),
    };
  }
}
