import { type EntityManager, IsNull } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import type { Done } from './hand-over-moves.js';
import type { Doing } from './history.service.js';
import { expectNotOwnAncestor, expectPossibleParents } from './parentage.js';
import type { RecordStore } from './record-store.js';
import { fishRecord, pairingRecord, spawnRecord } from './record-types.js';
import { FishRow } from './rows/fish.entity.js';
import { PairingRow } from './rows/pairing.entity.js';
import { SpawnRow } from './rows/spawn.entity.js';

/** What says more of a fish than its tag. */
const MORE = [
  'score',
  'genotype',
  'phenotype',
  'photo',
  'sheet_scoring',
  'hand_over',
  'fish_deal',
  'show_result',
];

/** Whether what a fish is can be learnt from the bare record here: of a fish whose record is kept at another install, they learn it there. */
export interface Uniting {
  readonly bare: FishRow;
  readonly own: FishRow;
  readonly learns?: boolean;
}

/** Why a record is more than a bare tag; `null` of one that is bare: known as a parent, swimming nowhere that is known, and nothing told of it. */
export const whyNotBare = async (m: EntityManager, fish: FishRow): Promise<string | null> => {
  if (fish.withdrawnAt !== null) return 'was withdrawn';
  if (fish.disposition !== 'elsewhere' && fish.swimsWithId !== null)
    return 'has a place of its own in those records';
  for (const table of MORE) {
    const [row] = (await m.query(`SELECT 1 FROM "standing_${table}" WHERE fish_id = $1 LIMIT 1`, [
      fish.id,
    ])) as object[];
    if (row !== undefined) return `has more than a tag there (${table.replace('_', ' ')})`;
  }
  return null;
};

/** The fish of that tag among a person's own, where it stands. */
export const ownFishTagged = (
  m: EntityManager,
  personId: string,
  tag: string,
): Promise<FishRow | null> => m.findOneBy(FishRow, { personId, tag, withdrawnAt: IsNull() });

const roles = ['sireId', 'damId'] as const;

/** The parents of a spawn once the claimant's record has taken the place of the bare one. */
const parentsWith = ({ sireId, damId }: SpawnRow, bare: FishRow, own: FishRow) => ({
  sireId: sireId === bare.id ? own.id : sireId,
  damId: damId === bare.id ? own.id : damId,
});

/** Refuses to put the claimant's record where the bare one stands as a parent, where that cannot be. */
const expectPossible = async (
  m: EntityManager,
  spawn: SpawnRow,
  bare: FishRow,
  own: FishRow,
): Promise<void> => {
  const { id: spawnId, hatchDate } = spawn;
  await expectPossibleParents(m, { spawnId, hatchDate, ...parentsWith(spawn, bare, own) });
};

/**
 * Refuses what cannot be one fish, and changes nothing.
 *
 * @throws RequestError `VALIDATION` where the sex does not fit the young, or a fish would be its own ancestor
 */
export const expectUnitable = async (
  m: EntityManager,
  bare: FishRow,
  own: FishRow,
): Promise<void> => {
  const young = await m.findBy(SpawnRow, [{ sireId: bare.id }, { damId: bare.id }]);
  for (const spawn of young) await expectPossible(m, spawn, bare, own);
  const spawnId = own.spawnId ?? bare.spawnId;
  const spawn = spawnId === null ? null : await m.findOneBy(SpawnRow, { id: spawnId });
  await expectNotOwnAncestor(m, own, [spawn?.sireId, spawn?.damId]);
};

/** Puts the claimant's record where the bare one stood as a parent, and refuses what cannot be. */
const putInPlace = async (
  m: EntityManager,
  records: RecordStore,
  bare: FishRow,
  own: FishRow,
  by: string,
  doing: Doing,
): Promise<void> => {
  for (const role of roles) {
    const changes = { [role]: own.id };
    for (const spawn of await m.findBy(SpawnRow, { [role]: bare.id })) {
      await expectPossible(m, spawn, bare, own);
      if (spawn.withdrawnAt !== null) continue;
      await records.correct<SpawnRow>(m, spawnRecord, spawn.id, undefined, changes, by, doing);
    }
    const pairs = await m.findBy(PairingRow, { [role]: bare.id, withdrawnAt: IsNull() });
    for (const { id } of pairs)
      await records.correct<PairingRow>(m, pairingRecord, id, undefined, changes, by, doing);
  }
};

/** What the bare record knows and the claimant's does not. */
const known = (bare: FishRow, own: FishRow): Partial<FishRow> => ({
  ...(own.spawnId === null && bare.spawnId !== null && { spawnId: bare.spawnId }),
  ...(own.lineId === null && bare.lineId !== null && { lineId: bare.lineId }),
  ...(own.hatchDate === null && bare.hatchDate !== null && { hatchDate: bare.hatchDate }),
  ...((own.sex === 'unsexed' || own.sex === 'uncertain') && { sex: bare.sex }),
});

/**
 * Makes one fish of two records: the claimant's, which keeps its id, stands from then on wherever the bare one stood as a parent, and takes
 * over what that one alone knew; the bare record is withdrawn with the reason, and stays readable with its history. In the caller's transaction.
 *
 * @throws RequestError `VALIDATION` where the sex does not fit the young, or a fish would be its own ancestor; then nothing is changed.
 */
export const uniteFish = async (
  m: EntityManager,
  records: RecordStore,
  { bare, own, learns = true }: Uniting,
  { by, accountId }: Done,
): Promise<void> => {
  const doing = {
    action: 'known as one fish',
    ...(accountId !== null && { byAccountId: accountId }),
  };
  if (bare.id === own.id)
    throw fieldError({ field: 'asTag', message: 'These are one record already.' });
  const learnt = learns ? known(bare, own) : {};
  if (Object.keys(learnt).length > 0)
    await records.correct<FishRow>(m, fishRecord, own.id, undefined, learnt, by, doing);
  await putInPlace(m, records, bare, own, by, doing);
  const spawn = await m.findOneBy(SpawnRow, { id: learnt.spawnId ?? own.spawnId ?? bare.id });
  await expectNotOwnAncestor(m, own, [spawn?.sireId, spawn?.damId]);
  // Withdrawn by the word of another install already.
  if (bare.withdrawnAt !== null) return;
  const reason = `the same fish as ${own.tag}`;
  await records.withdraw<FishRow>(m, fishRecord, bare.id, reason, by, undefined, doing);
};

/**
 * A bare record becomes that of a claimant who has none: it swims with them from then on. In the caller's transaction.
 *
 * @param tag what it is called there
 */
export const handBareRecord = async (
  m: EntityManager,
  records: RecordStore,
  bare: FishRow,
  personId: string,
  { by, accountId }: Done,
  tag: string,
): Promise<void> => {
  const doing = { action: 'claimed', ...(accountId !== null && { byAccountId: accountId }) };
  const changes: Partial<FishRow> = {
    ...{ personId, swimsWithId: personId, tag },
    disposition: bare.disposition === 'elsewhere' ? 'keeper' : bare.disposition,
  };
  await records.correct<FishRow>(m, fishRecord, bare.id, undefined, changes, by, doing);
};
