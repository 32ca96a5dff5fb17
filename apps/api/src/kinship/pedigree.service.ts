import { Injectable } from '@nestjs/common';
import {
  coancestry,
  inbreedingCoefficients,
  inbreedingPaths,
  type PathExplanation,
} from '@linewright/kinship';
import {
  NO_PARENT,
  type Pedigree,
  ancestors,
  buildPedigree,
  completeGenerationEquivalents,
  descendants,
} from '@linewright/pedigree';
import { DataSource } from 'typeorm';
import { notFound } from '../errors/request-error.js';

/** The whole recorded pedigree as one process computed it, tied to the database's pedigree revision. */
export interface PedigreeState {
  readonly revision: string;
  readonly pedigree: Pedigree;
  readonly inbreeding: Float64Array;
  readonly completeGenerations: Float64Array;
}

const ALL = `
  SELECT f.id, s.sire_id AS sire, s.dam_id AS dam
  FROM fish f LEFT JOIN spawn s ON s.id = f.spawn_id
  ORDER BY f.id`;

/** Keeps the pedigree and every F in memory, and computes them anew when any process changed a parent. */
@Injectable()
export class PedigreeService {
  private held: Promise<PedigreeState> | null = null;
  private heldRevision: string | null = null;

  constructor(private readonly dataSource: DataSource) {}

  async state(): Promise<PedigreeState> {
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
    if (!state.pedigree.has(id)) throw notFound('fish', id);
    return { state, index: state.pedigree.indexOf(id) };
  }

  async inbreedingOf(id: string): Promise<number> {
    const { state, index } = await this.index(id);
    return state.inbreeding[index] ?? 0;
  }

  /** F of a brood of these two; 0 where a parent is unknown, since an unknown parent is taken as unrelated. */
  async inbreedingOfBrood(sireId: string | null, damId: string | null): Promise<number> {
    if (sireId === null || damId === null) return 0;
    const { state, index } = await this.index(sireId);
    const dam = (await this.index(damId)).index;
    return coancestry(state.pedigree, index, dam);
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

  private async revision(): Promise<string> {
    const [row] = (await this.dataSource.query(
      'SELECT pedigree_revision::text AS revision FROM install_state WHERE id = 1',
    )) as { revision: string }[];
    return row?.revision ?? '0';
  }

  private async compute(revision: string): Promise<PedigreeState> {
    const rows = (await this.dataSource.query(ALL)) as {
      id: string;
      sire: string | null;
      dam: string | null;
    }[];
    const pedigree = buildPedigree(rows);
    return {
      revision,
      pedigree,
      inbreeding: inbreedingCoefficients(pedigree),
      completeGenerations: completeGenerationEquivalents(pedigree),
    };
  }
}
