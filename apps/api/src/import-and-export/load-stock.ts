import { looseSpelling } from '@linewright/pedigree';
import type { EntityManager } from 'typeorm';
import {
  type FishOfPerson,
  fishOfPerson,
  linesOfPerson,
  namesOfPeople,
  pairsOfSpawns,
  spawnsOfPerson,
  traitsOfPerson,
} from '../stock/import-and-export-rows.js';
import { plainCode, vesselsByCode } from '../stock/vessel-codes.js';
import { latestScores } from '../stock/score-rows.js';
import { broodKey, type RecordedFish, type RecordedStock } from './recorded-stock.js';
import { spawnCell } from './spawn-column.js';

const recordedFish = (
  { spawnTag, mixedOrigin, ...row }: FishOfPerson,
  isSire: boolean,
  isDam: boolean,
): RecordedFish => {
  const parents = { hasSire: row.sireTag !== null, hasDam: row.damTag !== null };
  const spawn = spawnCell({ spawnTag, mixedOrigin, ...parents }, row.tag);
  return { ...row, spawn, isSire, isDam };
};

/** What the person has recorded so far, as far as an import is checked against it. */
export const loadStock = async (
  manager: EntityManager,
  personId: string,
): Promise<RecordedStock> => {
  const fish = await fishOfPerson(manager, personId);
  const parents = await pairsOfSpawns(manager);
  const sires = new Set(parents.map((p) => p.sireId));
  const dams = new Set(parents.map((p) => p.damId));
  const lines = await linesOfPerson(manager, personId);
  const traits = await traitsOfPerson(manager, personId);
  const spawns = await spawnsOfPerson(manager, personId);
  const people = await namesOfPeople(manager);
  const vessels = await vesselsByCode(manager, personId);
  const latest = await latestScores(
    manager,
    fish.map((f) => f.id),
  );
  return {
    fish: new Map(fish.map((f) => [f.tag, recordedFish(f, sires.has(f.id), dams.has(f.id))])),
    lines: new Map(lines.map((line) => [line.code, line.id])),
    traits,
    spawns: new Map(
      spawns
        .filter((s) => !s.withdrawn)
        .map((s) => [broodKey(s.sireId, s.damId, s.hatchDate, s.lineId), s.id]),
    ),
    spawnsByTag: new Map(spawns.map((s) => [s.tag, s])),
    people: new Map(people.map(({ id, name }) => [looseSpelling(name), id])),
    vessels: new Map(vessels.map((one) => [plainCode(one.code), one])),
    personId,
    standing: new Map(latest.map((s) => [`${s.fishId} ${s.traitId}`, s.value])),
  };
};
