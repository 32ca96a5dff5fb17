import { Link } from 'react-router';
import type { SpawnRow } from '../../api/spawns.js';
import { FishLink } from '../../components/fish-marks.js';
import type { ListColumn } from '../../components/virtual-list.js';
import { plural } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';

export type SpawnSortField = 'TAG' | 'SPAWNED_ON';

function RowLink({ spawn }: { spawn: SpawnRow }) {
  return (
    <Link className="lw-row-link" to={`/spawns/${spawn.id}`}>
      {spawn.tag}
    </Link>
  );
}

export const columns: readonly ListColumn<SpawnRow, SpawnSortField>[] = [
  { key: 'tag', title: 'Tag', sort: 'TAG', cell: (spawn) => <RowLink spawn={spawn} /> },
  { key: 'line', title: 'Line', cell: (spawn) => spawn.line?.code ?? '' },
  {
    key: 'on',
    title: 'Spawned',
    sort: 'SPAWNED_ON',
    number: true,
    cell: (spawn) => spawn.spawnedOn ?? '',
  },
  { key: 'sire', title: 'Sire', cell: (spawn) => <FishLink fish={spawn.sire} /> },
  { key: 'dam', title: 'Dam', cell: (spawn) => <FishLink fish={spawn.dam} /> },
  { key: 'f', title: 'F', number: true, cell: (spawn) => inbreedingText(spawn) },
  { key: 'fish', title: 'Fish', number: true, cell: (spawn) => spawn.fishCount },
  {
    key: 'purpose',
    title: 'Purpose',
    cell: (spawn) => (spawn.failed ? 'failed' : (spawn.purpose ?? '')),
  },
];

/** A row on a phone: two lines in place of the columns. */
export function compactRow(spawn: SpawnRow) {
  return (
    <>
      <RowLink spawn={spawn} /> {spawn.failed ? 'failed' : plural(spawn.fishCount, 'fish', 'fish')}
      <span className="lw-row-end">F {inbreedingText(spawn)}</span>
      <span className="lw-row-second">
        {spawn.spawnedOn ?? 'no date'} · {spawn.sire?.tag ?? '?'} × {spawn.dam?.tag ?? '?'}
      </span>
    </>
  );
}
