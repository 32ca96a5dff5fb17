import { Link } from 'react-router';
import type { LineFigures } from '../../api/line-health.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink, SexMark } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { Why } from '../../components/why.js';
import { allKnown, inbreedingText, leastPercent } from '../../wording/inbreeding-words.js';
import { figureWords } from '../../wording/line-health-words.js';
import type { Column } from '../../components/data-table.js';

/** Every fish in use by its mean kinship, the least related to the rest first. */
export function KinshipSection({ figures, lineId }: { figures: LineFigures; lineId: string }) {
  const { kinship } = figures;
  const mean = figures.meanKinship.value ?? 0;
  // Each fish's mean has its coancestry with every other in it.
  const known = allKnown(kinship);
  const below = kinship.filter(({ meanKinship }) => meanKinship < mean).length;
  return (
    <Section
      title="Least related to the rest"
      actions={<Link to={`/lines/${lineId}/relationship`}>Relationship map</Link>}
    >
      <Why
        about="Mean kinship of each fish"
        figure={`${below} of ${kinship.length} fish are below the mean of ${leastPercent(mean, known)}`}
      >
        <p className="lw-words">
          A fish’s mean kinship is the mean of its coancestries with all fish in use, itself
          included, so that its own F raises it a little. A low one marks a fish whose founders are
          rare in the line; its young bring the line’s mean kinship down. Source:{' '}
          {figureWords.meanKinship.source}
        </p>
      </Why>
      <DataTable
        caption="Fish in use by mean kinship"
        low
        rows={kinship}
        rowKey={({ fish }) => fish.id}
        columns={kinshipColumns(known)}
      />
    </Section>
  );
}

function kinshipColumns(known: boolean): readonly Column<LineFigures['kinship'][number]>[] {
  return [
    { key: 'fish', title: 'Fish', cell: ({ fish }) => <FishLink fish={fish} /> },
    {
      key: 'sex',
      title: 'Sex',
      wideOnly: true,
      cell: ({ fish }) => <SexMark sex={fish.sex} />,
    },
    {
      key: 'kinship',
      title: 'Mean kinship',
      number: true,
      cell: ({ meanKinship }) => leastPercent(meanKinship, known),
    },
    {
      key: 'f',
      title: 'F',
      number: true,
      cell: inbreedingText,
    },
  ];
}
