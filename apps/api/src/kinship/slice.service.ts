import { Injectable } from '@nestjs/common';
import { NO_PARENT } from '@linewright/pedigree';
import { DataSource } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import { type DrawnRow, drawnRows } from '../stock/named-rows.js';
import type { PedigreeFishModel, PedigreeSliceModel } from './kinship.model.js';
import { hiddenParent } from './hidden-parents.js';
import { maskedFish } from './masked-fish.js';
import { namedFish } from './named-fish.js';
import { basisIn, basisOfPair, type PedigreeState, PedigreeService } from './pedigree.service.js';

export const PLANNED = 'planned';
const MOST_GENERATIONS = 60;
const MOST_FISH = 5_000;

type Shown = Pick<PedigreeFishModel, 'recordShown' | 'unknownParentOf'>;

/** Parts of the pedigree for drawing. */
@Injectable()
export class SliceService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
  ) {}

  async around(
    fishId: string,
    up: number,
    down: number,
    limit: number,
  ): Promise<PedigreeSliceModel> {
    this.expectWithin('ancestorGenerations', up, MOST_GENERATIONS);
    this.expectWithin('descendantGenerations', down, MOST_GENERATIONS);
    this.expectWithin('limit', limit, MOST_FISH);
    const { state, index } = await this.pedigrees.index(fishId);
    const { indices, truncated } = this.pedigrees.around(state, index, up, down, limit);
    return { focusId: fishId, fish: await this.fish(state, indices), truncated };
  }

  /** Ancestors of both and the brood they would give, drawn as one fish with the id `planned`. */
  async ofBrood(
    sireId: string,
    damId: string,
    up: number,
    inbreeding: number,
  ): Promise<PedigreeSliceModel> {
    const { state, index } = await this.pedigrees.index(sireId);
    const dam = (await this.pedigrees.index(damId)).index;
    const one = this.pedigrees.around(state, index, up, 0, MOST_FISH);
    const two = this.pedigrees.around(state, dam, up, 0, MOST_FISH);
    const indices = [...new Set([...one.indices, ...two.indices])].sort((a, b) => a - b);
    const brood: PedigreeFishModel = {
      id: PLANNED,
      tag: 'planned brood',
      sex: 'unsexed',
      sireId,
      damId,
      spawnId: null,
      spawnTag: null,
      recordShown: false,
      hatchDate: null,
      lineCode: null,
      disposition: 'unsorted',
      inbreedingCoefficient: inbreeding,
      inbreedingBasis: basisOfPair(state, index, dam),
    };
    return {
      focusId: PLANNED,
      fish: [...(await this.fish(state, indices)), brood],
      truncated: one.truncated || two.truncated,
    };
  }

  private async fish(
    state: PedigreeState,
    indices: readonly number[],
  ): Promise<PedigreeFishModel[]> {
    const { pedigree } = state;
    const ids = indices.map((i) => pedigree.ids[i] ?? '');
    const shown = new Set(indices);
    const recorded = ids.filter((id) => hiddenParent(id) === null);
    const rows = await drawnRows(this.dataSource, recorded);
    const byId = new Map<string, DrawnRow & Shown>(
      rows.map((row) => [row.id, { ...row, recordShown: true }]),
    );
    const hidden = ids.filter((id) => hiddenParent(id) !== null);
    const unseen = recorded.filter((id) => !byId.has(id));
    for (const one of [
      ...(await namedFish(this.dataSource, hidden)).values(),
      ...(await maskedFish(this.dataSource, unseen)),
    ]) {
      byId.set(one.id, { ...one, recordShown: false, spawnId: null, spawnTag: null });
    }
    const parent = (index: number | undefined): string | null =>
      index === undefined || index === NO_PARENT || !shown.has(index)
        ? null
        : (pedigree.ids[index] ?? null);
    return indices.flatMap((i, k) => {
      const row = byId.get(ids[k] ?? '');
      if (row === undefined) return [];
      return [
        {
          ...row,
          sireId: parent(pedigree.sire[i]),
          damId: parent(pedigree.dam[i]),
          inbreedingCoefficient: state.inbreeding[i] ?? 0,
          inbreedingBasis: basisIn(state, i),
        },
      ];
    });
  }

  private expectWithin(name: string, value: number, most: number): void {
    if (value >= 0 && value <= most) return;
    throw new RequestError('VALIDATION', `"${name}" is ${value}: give a number from 0 to ${most}.`);
  }
}
