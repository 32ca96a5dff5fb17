import { coancestry, meanKinship } from '@linewright/kinship';
import { daysBetween, lineWithYoung, type PairingCandidate } from '@linewright/mating';
import type { Pedigree } from '@linewright/pedigree';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { candidateRows } from '../stock/candidate-rows.js';
import { spawnsOfFish } from '../stock/pedigree-rows.js';
import type { Judged } from './judging.service.js';
import type { ConditionOfFishModel, LineWithYoungModel, PlaceInLineModel } from './worth.model.js';

/** What a pair finds both fish in, and what each keeps for its own line. */
@Injectable()
export class ConditionsService {
  constructor(private readonly dataSource: DataSource) {}

  async of(fish: PairingCandidate, { state, input }: Judged): Promise<ConditionOfFishModel> {
    const past = await spawnsOfFish(this.dataSource, fish.id);
    return {
      ageDays: daysSince(fish.hatchedOn, input.asOf),
      restDays: daysSince(fish.lastSpawnedOn, input.asOf),
      spawns: past.filter(({ failed }) => !failed).length,
      failures: past.filter(({ failed }) => failed).length,
      isHere: isHere(fish),
      place:
        fish.line === undefined ? null : await this.placeIn(fish.line.id, fish.id, state.pedigree),
    };
  }

  /** The kinship of the line that both are of with their young in it; null for a pair of two lines, or of none. */
  async ofLineWithYoung(
    sire: PairingCandidate,
    dam: PairingCandidate,
    keep: number,
    { state: { pedigree } }: Judged,
  ): Promise<LineWithYoungModel | null> {
    const lineId = sire.line?.id;
    if (lineId === undefined || lineId !== dam.line?.id) return null;
    const line = (await this.inUse(lineId, pedigree)).map((id) => pedigree.indexOf(id));
    if (line.length === 0) return null;
    const parents = [pedigree.indexOf(sire.id), pedigree.indexOf(dam.id)] as const;
    return { fish: line.length, keep, ...lineWithYoung(pedigree, line, parents, keep) };
  }

  /** Fish in use of a line, those with partners too. */
  private async inUse(lineId: string, pedigree: Pedigree): Promise<string[]> {
    const inUse = { lineIds: [lineId], partners: true };
    const rows = await candidateRows(this.dataSource.manager, [], inUse);
    return rows.map(({ id }) => id).filter((id) => pedigree.has(id));
  }

  private async placeIn(
    lineId: string,
    fishId: string,
    pedigree: Pedigree,
  ): Promise<PlaceInLineModel | null> {
    const ids = await this.inUse(lineId, pedigree);
    if (!ids.includes(fishId) || ids.length < 2) return null;
    return placeAmong(ids.indexOf(fishId), pedigree, ids);
  }
}

const isHere = ({ standing }: PairingCandidate): boolean =>
  standing === undefined ||
  (standing.state === 'alive' &&
    standing.swimsWith === undefined &&
    standing.withdrawn === undefined);

/** A day to come counts as none gone by. */
const daysSince = (day: string | undefined, asOf: string): number | null =>
  day === undefined ? null : Math.max(0, daysBetween(day, asOf));

/** Where one of some fish stands by its mean coancestry with all of them, and what they are without it. */
export const placeAmong = (
  at: number,
  pedigree: Pedigree,
  ids: readonly string[],
): PlaceInLineModel => {
  const places = ids.map((id) => pedigree.indexOf(id));
  const means = meanKinship(pedigree, places);
  const size = ids.length;
  const own = means[at]!;
  const all = size * means.reduce((sum, each) => sum + each, 0);
  const without = all - 2 * size * own + coancestry(pedigree, places[at]!, places[at]!);
  return {
    meanCoancestry: own,
    place: 1 + means.filter((mean) => mean < own - 1e-12).length,
    of: size,
    riseWithout: without / (size - 1) ** 2 - all / size ** 2,
  };
};
