import { type LinePurpose, passesStandard } from '@linewright/mating';
import type { DataSource } from 'typeorm';
import { standingPhenotypes } from '../stock/genotype.loader.js';
import { youngOnRecord } from '../stock/route-rows.js';
import { isStanding, scoresOfFish } from '../stock/score.loader.js';

/** Of the young of a brood that have a record: how many passed what the line asks for, and how many did not. The others are not known. */
export interface PassedYoung {
  readonly passed: number;
  readonly notPassed: number;
}

/** By spawn, the young of it that passed: by their latest scores, and by what was seen of them last. */
export const passedYoung = async (
  dataSource: DataSource,
  spawnIds: readonly string[],
  purpose: Pick<LinePurpose, 'traits' | 'looks'>,
): Promise<ReadonlyMap<string, PassedYoung>> => {
  const young = spawnIds.length === 0 ? [] : await youngOnRecord(dataSource, spawnIds);
  const ids = young.map(({ id }) => id);
  const [scores, seen] = await Promise.all([
    scoresOfFish(dataSource, ids),
    standingPhenotypes(dataSource.manager, ids),
  ]);
  const latest = latestBy(scores.filter(isStanding), ({ traitId, value }) => [traitId, value]);
  const looks = latestBy(seen, ({ locusId, phenotype }) => [locusId, phenotype]);
  const found = new Map<string, PassedYoung>();
  for (const { id, spawnId } of young) {
    const one = { scores: latest.get(id) ?? NOTHING, looks: looks.get(id) ?? NOTHING };
    const passes = passesStandard(one, purpose);
    const { passed, notPassed } = found.get(spawnId) ?? { passed: 0, notPassed: 0 };
    found.set(spawnId, {
      passed: passed + (passes === true ? 1 : 0),
      notPassed: notPassed + (passes === false ? 1 : 0),
    });
  }
  return found;
};

const NOTHING = new Map<string, never>();

/** By fish, the first of each kind: rows come with the latest first. */
const latestBy = <Row extends { readonly fishId: string }, Value>(
  rows: readonly Row[],
  entry: (row: Row) => readonly [string, Value],
): Map<string, Map<string, Value>> => {
  const byFish = new Map<string, Map<string, Value>>();
  for (const row of rows) {
    const [key, value] = entry(row);
    const ofFish = byFish.get(row.fishId) ?? new Map<string, Value>();
    if (!ofFish.has(key)) ofFish.set(key, value);
    byFish.set(row.fishId, ofFish);
  }
  return byFish;
};
