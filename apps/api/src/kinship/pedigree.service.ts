import { Injectable } from '@nestjs/common';
import {
  coancestry,
  inbreedingCoefficients,
  inbreedingPaths,
  type PathExplanation,
} from '@linewright/kinship';
import {
  type InbreedingBasis,
  NO_PARENT,
  type Pedigree,
  ancestors,
  basisOfInbreeding,
  completeGenerationEquivalents,
  descendants,
  unknownOrigin,
} from '@linewright/pedigree';
import { DataSource } from 'typeorm';
import { onceARequest } from '../graphql/once-a-request.js';
import { asSystem, currentActor } from '../access/acting.js';
import { seesAll } from '../access/actor.js';
import { notFound } from '../errors/request-error.js';
import { seesFish } from '../stock/named-rows.js';
import { allParentage, pedigreeRevision } from '../stock/pedigree-rows.js';
import { hiddenParent, pedigreeOfRows } from './hidden-parents.js';

/** The whole recorded pedigree as one process computed it, tied to the database's pedigree revision. */
export interface PedigreeState {
  readonly revision: string;
  readonly pedigree: Pedigree;
  readonly inbreeding: Float64Array;
  readonly completeGenerations: Float64Array;
  /** 1 where something behind a fish is of unknown origin. */
  readonly unknown: Uint8Array;
  /** Fish whose unknown parents are known to be unrelated to all others. */
  readonly declared: Uint8Array;
}

/** Keeps the pedigree and every F in memory, and computes them anew when any process changed a parent. */
@Injectable()
export class PedigreeService {
  private held: Promise<PedigreeState> | null = null;
  private heldRevision: string | null = null;

  constructor(private readonly dataSource: DataSource) {}

  /** As the database has it now; as it was at the first question, within a request that only reads. */
  state(): Promise<PedigreeState> {
    return onceARequest(this, () => this.present());
  }

  private async present(): Promise<PedigreeState> {
    const revision = await this.revision();
    if (this.held === null || this.heldRevision !== revision) {
      this.heldRevision = revision;
      this.held = this.compute(revision);
      this.held.catch(() => {
        this.held = null;
      });
    }
    return this.held;
  }

  async index(id: string): Promise<{ state: PedigreeState; index: number }> {
    const state = await this.state();
    if (!state.pedigree.has(id) || hiddenParent(id) !== null || !(await this.isSeen(id)))
      throw notFound('fish', id);
    return { state, index: state.pedigree.indexOf(id) };
  }

  /** What is held in memory is whole: what of it may be asked for, the database says. */
  private async isSeen(id: string): Promise<boolean> {
    if (seesAll(currentActor())) return true;
    return seesFish(this.dataSource, id);
  }

  async inbreedingOf(id: string): Promise<number> {
    const { state, index } = await this.index(id);
    return state.inbreeding[index] ?? 0;
  }

  async basisOf(id: string): Promise<InbreedingBasis> {
    const { state, index } = await this.index(id);
    return basisIn(state, index);
  }

  /** How far the F of a spawn's young can be trusted, whoever may see its parents: the spawn was asked first. */
  async basisOfBrood(sireId: string | null, damId: string | null): Promise<InbreedingBasis> {
    const parents = await this.parentsOfBrood(sireId, damId);
    return parents === null ? 'unknown' : basisOfPair(parents.state, parents.sire, parents.dam);
  }

  private async parentsOfBrood(
    sireId: string | null,
    damId: string | null,
  ): Promise<{ state: PedigreeState; sire: number; dam: number } | null> {
    if (sireId === null || damId === null) return null;
    const state = await this.state();
    for (const id of [sireId, damId]) if (!state.pedigree.has(id)) throw notFound('fish', id);
    const { pedigree } = state;
    return { state, sire: pedigree.indexOf(sireId), dam: pedigree.indexOf(damId) };
  }

  /** How far an F can be trusted that counts on all of these. */
  async basisOfAll(ids: readonly string[]): Promise<InbreedingBasis> {
    const { pedigree, unknown } = await this.state();
    return ids.some((id) => unknown[pedigree.indexOf(id)] === 1) ? 'at-least' : 'known';
  }

  /** Fish of unknown origin behind these, themselves included: those whose parents nobody knows; the nearest last. */
  unknownBehind(state: PedigreeState, indices: readonly number[]): string[] {
    const { pedigree, unknown, declared } = state;
    const all = new Set<number>(indices);
    for (const index of indices) for (const one of ancestors(pedigree, index)) all.add(one);
    return [...all]
      .sort((a, b) => a - b)
      .filter((one) => unknown[one] === 1 && pedigree.hidden?.[one] !== 1 && declared[one] !== 1)
      .filter((one) =>
        [pedigree.sire[one]!, pedigree.dam[one]!].some(
          (parent) => parent < 0 || pedigree.hidden?.[parent] === 1,
        ),
      )
      .map((one) => pedigree.ids[one] ?? '');
  }

  /** F of a spawn's young; 0 where a parent is unknown, since an unknown parent is taken as unrelated. */
  async inbreedingOfBrood(sireId: string | null, damId: string | null): Promise<number> {
    const parents = await this.parentsOfBrood(sireId, damId);
    return parents === null ? 0 : coancestry(parents.state.pedigree, parents.sire, parents.dam);
  }

  async pathsOf(
    id: string,
    limit: number,
  ): Promise<{ state: PedigreeState; explanation: PathExplanation | null }> {
    const { state, index } = await this.index(id);
    const sire = state.pedigree.sire[index] ?? NO_PARENT;
    const dam = state.pedigree.dam[index] ?? NO_PARENT;
    if (sire === NO_PARENT || dam === NO_PARENT) return { state, explanation: null };
    return { state, explanation: inbreedingPaths(state.pedigree, sire, dam, { limit }) };
  }

  async pathsOfBrood(
    sireId: string,
    damId: string,
    limit: number,
  ): Promise<{ state: PedigreeState; explanation: PathExplanation }> {
    const { state, index } = await this.index(sireId);
    const dam = (await this.index(damId)).index;
    return { state, explanation: inbreedingPaths(state.pedigree, index, dam, { limit }) };
  }

  /** Indices around a fish, parents first, cut at `limit`: ancestors are kept before descendants. */
  around(
    state: PedigreeState,
    index: number,
    up: number,
    down: number,
    limit: number,
  ): { indices: number[]; truncated: boolean } {
    // The youngest first: when there are too many, the oldest are left out.
    const above = up > 0 ? [...ancestors(state.pedigree, index, up)].reverse() : [];
    const below = down > 0 ? [...descendants(state.pedigree, index, down)] : [];
    const mates = this.matesOf(state, index, below);
    const wanted = [...new Set([index, ...above, ...below, ...mates])];
    return {
      indices: wanted.slice(0, limit).sort((a, b) => a - b),
      truncated: wanted.length > limit,
    };
  }

  private matesOf({ pedigree }: PedigreeState, index: number, below: readonly number[]): number[] {
    const shown = new Set<number>([index, ...below]);
    return below.flatMap((i) =>
      [pedigree.sire[i] ?? NO_PARENT, pedigree.dam[i] ?? NO_PARENT].filter(
        (p) => p !== NO_PARENT && !shown.has(p),
      ),
    );
  }

  private revision(): Promise<string> {
    return asSystem('pedigree', () => pedigreeRevision(this.dataSource));
  }

  private async compute(revision: string): Promise<PedigreeState> {
    const rows = await asSystem('pedigree', () => allParentage(this.dataSource));
    const pedigree = pedigreeOfRows(rows);
    const declared = new Uint8Array(pedigree.size);
    for (const row of rows) if (row.declared) declared[pedigree.indexOf(row.id)] = 1;
    return {
      revision,
      pedigree,
      inbreeding: inbreedingCoefficients(pedigree),
      completeGenerations: completeGenerationEquivalents(pedigree),
      declared,
      unknown: unknownOrigin(pedigree, declared),
    };
  }
}

export const basisIn = ({ pedigree, unknown }: PedigreeState, index: number): InbreedingBasis =>
  basisOfInbreeding(pedigree, unknown, index);

/** How far the F of a brood can be trusted. */
export const basisOfPair = (
  { unknown }: PedigreeState,
  sire: number,
  dam: number,
): InbreedingBasis => (unknown[sire] === 1 || unknown[dam] === 1 ? 'at-least' : 'known');
