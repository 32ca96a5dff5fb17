import { Link } from 'react-router';
import type { RelationshipMapAnswer } from '../../api/relationship.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink, SexMark } from '../../components/fish-marks.js';
import {
  allKnown,
  INBREEDING_MARKS,
  inbreedingText,
  leastPercent,
} from '../../wording/inbreeding-words.js';
import { pairPath } from './mapped-pair.js';
import type { NamedFish } from '../../api/named-fish.js';
import type { Column } from '../../components/data-table.js';

interface OneFishTableProps {
  map: RelationshipMapAnswer;
  matrix: Float64Array;
  /** Place of the fish in the map. */
  place: number;
}

/** Every figure of one row of the map, the closest relative first. */
export function OneFishTable({ map, matrix, place }: OneFishTableProps) {
  const own = map.fish[place];
  if (own === undefined) return null;
  const others = map.fish
    .map(({ fish, family, inbreedingBasis }, column) => ({
      fish,
      family,
      known: own.inbreedingBasis === 'KNOWN' && inbreedingBasis === 'KNOWN',
      coancestry: matrix[place * map.fish.length + column] ?? 0,
    }))
    .filter(({ fish }) => fish.id !== own.fish.id)
    .sort((a, b) => b.coancestry - a.coancestry || a.fish.tag.localeCompare(b.fish.tag, 'en'));
  return (
    <>
      <p className="lw-quiet">
        <FishLink fish={own.fish} />: F {inbreedingText(own)}, mean kinship{' '}
        {leastPercent(own.meanKinship, allKnown(map.fish))}.
      </p>
      {others.some(({ known }) => !known) && <p className="lw-quiet">{INBREEDING_MARKS}</p>}
      <DataTable
        caption={`Coancestry of ${own.fish.tag} with all others`}
        low
        rows={others}
        rowKey={({ fish }) => fish.id}
        columns={otherColumns(own)}
      />
    </>
  );
}

function otherColumns(
  own: RelationshipMapAnswer['fish'][number],
): readonly Column<{ fish: NamedFish; family: number; known: boolean; coancestry: number }>[] {
  return [
    { key: 'fish', title: 'With', cell: ({ fish }) => <FishLink fish={fish} /> },
    {
      key: 'sex',
      title: 'Sex',
      wideOnly: true,
      cell: ({ fish }) => <SexMark sex={fish.sex} />,
    },
    {
      key: 'family',
      title: 'Family',
      number: true,
      wideOnly: true,
      cell: ({ family }) => family + 1,
    },
    {
      key: 'coancestry',
      title: 'Coancestry',
      number: true,
      cell: ({ coancestry, known }) => leastPercent(coancestry, known),
    },
    {
      key: 'pair',
      title: 'Pair',
      cell: ({ fish }) => {
        const path = pairPath(own.fish, fish);
        return path === null ? null : (
          <Link to={path} aria-label={`Pair ${own.fish.tag} and ${fish.tag}`}>
            open
          </Link>
        );
      },
    },
  ];
}
