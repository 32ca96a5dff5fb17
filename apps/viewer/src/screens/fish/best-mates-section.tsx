import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { FishFacts } from '../../api/fish.js';
import { type Candidate, PAIRING_CANDIDATES } from '../../api/pairing-candidates.js';
import { useRead } from '../../api/use-read.js';
import { type Column, DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';
import { SeverityCounts } from '../../components/severity-mark.js';
import { Empty, Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { plural } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { orderText, worthText } from '../../wording/worth-words.js';

const LISTED = 5;

/** The best mates of a fish in its own line, as the list of pairs has them; of one that is in use and has a sex. */
export function BestMatesSection({ fish }: { fish: FishFacts }) {
  const [shown, setShown] = useState(false);
  if (!fish.inUse || fish.line === null || (fish.sex !== 'MALE' && fish.sex !== 'FEMALE'))
    return null;
  return (
    <Section title={`Best mates in ${fish.line.code}`}>
      {shown ? (
        <Mates fish={fish} lineId={fish.line.id} />
      ) : (
        <Button onClick={() => setShown(true)}>Show the best mates</Button>
      )}
    </Section>
  );
}

function Mates({ fish, lineId }: { fish: FishFacts; lineId: string }) {
  const only = fish.sex === 'MALE' ? { sireIds: [fish.id] } : { damIds: [fish.id] };
  const input = { ...only, lineIds: [lineId], linesOfPair: 'WITHIN' as const };
  const read = useRead(PAIRING_CANDIDATES, { input, sort: 'WORTH', first: LISTED });
  return (
    <Shown read={read} what="the best mates">
      {({ pairingCandidates: found }) => (
        <>
          {found.waiting !== null && (
            <WaitingComputation
              computation={found.waiting}
              what="what the fish pass on"
              onDone={read.reload}
            />
          )}
          {found.edges.length === 0 ? (
            <Empty>No fish of the other sex of this line is in use here.</Empty>
          ) : (
            <DataTable
              caption="Best mates"
              rows={found.edges.map(({ node }) => node)}
              rowKey={({ sire, dam }) => `${sire.id} ${dam.id}`}
              columns={columnsFor(fish)}
            />
          )}
          <p className="lw-quiet lw-words">
            {found.totalCount > LISTED &&
              `The best ${LISTED} of ${plural(found.totalCount, 'mate')} are listed; all stand under Next pairing. `}
            {orderText(found.basis)}
          </p>
        </>
      )}
    </Shown>
  );
}

const columnsFor = (fish: FishFacts): readonly Column<Candidate>[] => [
  {
    key: 'mate',
    title: 'Mate',
    cell: ({ sire, dam }) => <FishLink fish={fish.sex === 'MALE' ? dam : sire} />,
  },
  { key: 'f', title: 'F of brood', number: true, cell: inbreedingText },
  {
    key: 'worth',
    title: 'Worth, points',
    number: true,
    wideOnly: true,
    cell: ({ worth }) => (worth === null ? '' : worthText(worth)),
  },
  {
    key: 'warnings',
    title: 'Warnings',
    cell: ({ warnings }) => <SeverityCounts warnings={warnings} />,
  },
  {
    key: 'why',
    title: <span className="lw-heard">The pair</span>,
    cell: ({ sire, dam }) => (
      <Link to={`/pair/${sire.id}/${dam.id}`} aria-label={`The pair ${sire.tag} by ${dam.tag}`}>
        Why
      </Link>
    ),
  },
];
