import { Link } from 'react-router';
import type { FishRow } from '../../api/fish.js';
import { FishFace } from '../../components/fish-face.js';
import { DispositionMark, FishLink, PlaceMark, SexMark } from '../../components/fish-marks.js';
import type { ListColumn } from '../../components/virtual-list.js';
import { ageToday } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { dispositionWord, placeWords } from '../../wording/words.js';
import type { FishSortField } from './fish-filter.js';

function RowLink({ fish }: { fish: FishRow }) {
  return (
    <Link
      className={fish.withdrawn === null ? 'lw-row-link' : 'lw-row-link lw-struck'}
      to={`/fish/${fish.id}`}
    >
      {fish.tag}
    </Link>
  );
}

export const columns: readonly ListColumn<FishRow, FishSortField>[] = [
  { key: 'face', title: 'Looks', cell: (fish) => <FishFace fish={fish} /> },
  { key: 'tag', title: 'Tag', sort: 'TAG', cell: (fish) => <RowLink fish={fish} /> },
  { key: 'sex', title: 'Sex', cell: (fish) => <SexMark sex={fish.sex} /> },
  { key: 'line', title: 'Line', sort: 'LINE', cell: (fish) => fish.line?.code ?? '' },
  {
    key: 'hatched',
    title: 'Hatched',
    sort: 'HATCH_DATE',
    number: true,
    cell: (fish) => fish.hatchDate ?? '',
  },
  { key: 'age', title: 'Age', number: true, cell: (fish) => ageToday(fish.hatchDate) ?? '' },
  {
    key: 'sire',
    title: 'Sire',
    cell: (fish) => (fish.sire === null ? '' : <FishLink fish={fish.sire} />),
  },
  {
    key: 'dam',
    title: 'Dam',
    cell: (fish) => (fish.dam === null ? '' : <FishLink fish={fish.dam} />),
  },
  { key: 'f', title: 'F', number: true, cell: (fish) => inbreedingText(fish) },
  {
    key: 'disposition',
    title: 'Decision',
    sort: 'DISPOSITION',
    cell: (fish) => (
      <>
        <DispositionMark disposition={fish.disposition} /> <PlaceMark fish={fish} />
      </>
    ),
  },
];

/** A row on a phone: two lines in place of the columns. */
export function compactRow(fish: FishRow) {
  const parents =
    fish.sire === null && fish.dam === null
      ? null
      : `${fish.sire?.tag ?? '?'} × ${fish.dam?.tag ?? '?'}`;
  return (
    <>
      <span className="lw-row-face">
        <FishFace fish={fish} />
      </span>
      <RowLink fish={fish} /> <SexMark sex={fish.sex} />{' '}
      <span className="lw-row-end">F {inbreedingText(fish)}</span>
      <span className="lw-row-second">
        {[dispositionWord[fish.disposition], placeWords(fish), ageToday(fish.hatchDate), parents]
          .filter((part) => part !== null)
          .join(' · ')}
      </span>
    </>
  );
}
