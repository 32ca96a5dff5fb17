import { Injectable } from '@nestjs/common';
import { relationshipMap } from '@linewright/kinship';
import { DataSource } from 'typeorm';
import { fieldError, notFound } from '../errors/request-error.js';
import { basisIn, PedigreeService } from '../kinship/pedigree.service.js';
import { namedFish } from '../kinship/named-fish.js';
import { expectLines } from '../stock/line-rows.js';
import { countInUse, namedInUse, oneOfEachSib } from '../stock/named-rows.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import type { RelationshipMapModel } from './relationship-map.model.js';

/** A map of 500 fish is 125,250 figures and 2 MB of answer. */
export const MOST_MAPPED = 500;

/** A fish in use, and how many full sibs of its sex it stands for, itself included. */
type SibInUse = NamedFishModel & { readonly standsFor: number };

export interface MapChoice {
  readonly lineIds: readonly string[] | null;
  readonly fishIds: readonly string[] | null;
  readonly includeUnsorted: boolean;
}

/** Who looks at one line already has to have fewer fish in use there. */
const fewer = (lineIds: readonly string[] | null | undefined): string =>
  lineIds?.length === 1
    ? 'Decide which fish of the line you keep: those that are culled, placed or dead are not counted.'
    : 'Choose one line.';

@Injectable()
export class RelationshipMapService {
  constructor(
    private readonly pedigrees: PedigreeService,
    private readonly dataSource: DataSource,
  ) {}

  async of(choice: MapChoice): Promise<RelationshipMapModel> {
    const fish = await (choice.fishIds === null ? this.inUse(choice) : this.given(choice.fishIds));
    if (fish.length === 0) {
      const whyNone = whyEmpty(choice);
      return { fish: [], families: [], familyAt: 0, coancestry: [], inUseCount: 0, whyNone };
    }
    // Asked for after the fish, so that it has every one of them.
    const state = await this.pedigrees.state();
    const { pedigree, inbreeding } = state;
    const indices = fish.map(({ id }) => pedigree.indexOf(id));
    const { order, coancestry, families, familyAt } = relationshipMap(pedigree, indices);
    const byIndex = new Map(indices.map((index, k) => [index, fish[k]!]));
    const size = order.length;
    const family = families.flatMap(({ count }, place) => new Array<number>(count).fill(place));
    const rows = order.map((_, i) => coancestry.subarray(i * size, (i + 1) * size));
    return {
      fish: order.map((index, i) => ({
        fish: byIndex.get(index)!,
        standsFor: byIndex.get(index)!.standsFor,
        family: family[i] ?? 0,
        inbreedingCoefficient: inbreeding[index] ?? 0,
        inbreedingBasis: basisIn(state, index),
        meanKinship: rows[i]!.reduce((sum, value) => sum + value, 0) / size,
      })),
      families: families.map((each) => ({ ...each })),
      familyAt,
      coancestry: rows.flatMap((row, i) => [...row.subarray(0, i + 1)]),
      inUseCount: fish.reduce((sum, { standsFor }) => sum + standsFor, 0),
      whyNone: null,
    };
  }

  private async inUse({ lineIds, includeUnsorted }: MapChoice): Promise<SibInUse[]> {
    await expectLines(this.dataSource, lineIds ?? []);
    const which = { lineIds, includeUnsorted };
    // One more than a map takes shows that there are too many.
    const fish = await namedInUse(this.dataSource, which, MOST_MAPPED + 1);
    if (fish.length <= MOST_MAPPED) return fish.map(itself);
    const sibs = await oneOfEachSib(this.dataSource, which, MOST_MAPPED + 1);
    if (sibs.length <= MOST_MAPPED) return sibs;
    const count = await countInUse(this.dataSource, which);
    throw fieldError({
      field: 'lineIds',
      message: `${count} fish are in use, and a map takes ${MOST_MAPPED}. One male and one female of each pair's young would still be more. ${fewer(lineIds)}`,
    });
  }

  private async given(ids: readonly string[]): Promise<SibInUse[]> {
    const wanted = [...new Set(ids.map((id) => id.toLowerCase()))];
    if (wanted.length > MOST_MAPPED) {
      throw fieldError({
        field: 'fishIds',
        message: `${wanted.length} fish were named; a map takes ${MOST_MAPPED}. Name fewer.`,
      });
    }
    const named = await namedFish(this.dataSource, wanted, 'absent');
    return wanted.map((id) => {
      const fish = named.get(id);
      if (fish === undefined) throw notFound('fish', id);
      return itself(fish);
    });
  }
}

const itself = (fish: NamedFishModel): SibInUse => ({ ...fish, standsFor: 1 });

const whyEmpty = ({ lineIds, fishIds, includeUnsorted }: MapChoice): string => {
  if (fishIds !== null) return 'No fish was named.';
  const where = lineIds === null ? 'here' : 'in this line';
  return includeUnsorted
    ? `No fish is alive ${where}.`
    : `No fish is in use ${where}: decide which are keepers or on hold, or count the unsorted too.`;
};
