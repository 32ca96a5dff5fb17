import { howManyToKeep, type LinePurpose, type ToKeep } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { purposeVersion, wholePurpose } from '../stock/purpose-rows.js';
import { roundOfSpawn } from '../stock/round-rows.js';
import type { KeepingBasis } from './keeping.enums.js';

/** How many of each sex to keep of a brood, and what that rests on. */
export interface NumberToKeep {
  readonly basis: KeepingBasis;
  readonly roundId: string | null;
  /** Kept in all, of so many broods. */
  readonly keep: number;
  readonly broods: number;
  /** Pairs of the round that came to nothing: the others give more. */
  readonly lost: number;
  readonly toKeep: ToKeep;
}

/** From the adopted round that the brood was made in; where there is none, from what the line is for. */
@Injectable()
export class HowManyService {
  constructor(private readonly dataSource: DataSource) {}

  async of(
    spawnId: string,
    lineId: string,
    { version, purpose }: { readonly version: number; readonly purpose: LinePurpose },
  ): Promise<NumberToKeep> {
    const { manager } = this.dataSource;
    const found = await roundOfSpawn(manager, spawnId);
    if (found === null) {
      const { keep, broods } = purpose;
      const keptElsewhere = { males: 0, females: 0 };
      return {
        ...{ basis: version === 0 ? 'guide' : 'purpose', roundId: null, keep, broods, lost: 0 },
        toKeep: howManyToKeep({ keep, broods, keptElsewhere }),
      };
    }
    const { round, pairs } = found;
    const said = await purposeVersion(manager, lineId, round.purposeVersion);
    const { keep } = said === null ? purpose : wholePurpose(said);
    const counting = pairs.filter(({ counts }) => counts);
    const others = counting.filter(({ spawnIds }) => !spawnIds.includes(spawnId));
    const sum = (of: 'keptMales' | 'keptFemales'): number =>
      others.reduce((total, pair) => total + pair[of], 0);
    const broods = Math.max(1, counting.length);
    return {
      ...{ basis: 'round', roundId: round.id, keep, broods, lost: pairs.length - counting.length },
      toKeep: howManyToKeep({
        ...{ keep, broods },
        keptElsewhere: { males: sum('keptMales'), females: sum('keptFemales') },
      }),
    };
  }
}
