import { useEffect, useRef, useState } from 'react';
import { BROOD_KEEPING, type BroodKeeping, type YoungToKeep } from '../../api/keeping.js';
import { useRead, type Read } from '../../api/use-read.js';
import type { ResultOf } from '../../api/graphql.js';
import { LastCarrier } from '../../components/last-carrier.js';
import { YoungWorths } from '../../drawings/index.js';
import {
  allelesTold,
  carriesText,
  keepText,
  keptText,
  youngText,
} from '../../wording/keeping-words.js';
import { worthGroups } from '../../wording/young-worth-groups.js';
import type { Bench, BenchFish } from './bench-facts.js';

export type BroodRead = Read<ResultOf<typeof BROOD_KEEPING>>;

/** Whom to keep of the brood at the bench, asked anew whenever the bench was read anew: what was decided meanwhile changes it. */
export function useKeeping(spawnId: string, readAt: string | null): BroodRead {
  const read = useRead(BROOD_KEEPING, { spawnId });
  const { reload } = read;
  const asked = useRef(readAt);
  useEffect(() => {
    if (asked.current === readAt) return;
    asked.current = readAt;
    reload();
  }, [readAt, reload]);
  return read;
}

interface InHandProps {
  fish: BenchFish;
  read: BroodRead;
}

const youngIn = (keeping: BroodKeeping, fish: BenchFish): YoungToKeep | undefined =>
  keeping.young.edges.find(({ node }) => node.fish.id === fish.id)?.node;

/** What the line would lose with the fish in hand. */
export function LastCarrierInHand({ fish, read }: InHandProps) {
  const keeping = read.data?.broodKeeping;
  const young = keeping && youngIn(keeping, fish);
  return young === undefined || keeping === undefined ? null : (
    <LastCarrier young={young} alleles={keeping.alleles} />
  );
}

/** The same for all fish of the bench that are not yet sorted. */
export function LastCarriersOfBrood({ bench, read }: { bench: Bench; read: BroodRead }) {
  const unsorted = bench.fish.filter(({ disposition }) => disposition === 'UNSORTED');
  return unsorted.map((fish) => <LastCarrierInHand key={fish.id} fish={fish} read={read} />);
}

/** What the fish in hand is worth to its line, in a line of words, with its dot among its sibs when opened. */
export function KeepingLines({ fish, read }: InHandProps) {
  if (read.data === undefined)
    return (
      <p className="lw-quiet" role="status">
        {read.problem === null
          ? 'Whom to keep is being worked out…'
          : 'Whom to keep: needs a connection to the server.'}
      </p>
    );
  const { broodKeeping: keeping } = read.data;
  const young = youngIn(keeping, fish);
  if (young === undefined || keeping.number === null)
    return (
      <p className="lw-quiet">
        {keeping.problem ?? `Nothing is told of ${fish.tag}: it is not among the living young.`}
      </p>
    );
  return <Told keeping={keeping} young={young} />;
}

function Told({ keeping, young }: { keeping: BroodKeeping; young: YoungToKeep }) {
  const [open, setOpen] = useState(false);
  const carried = allelesTold(young, keeping.alleles).map(carriesText);
  return (
    <>
      <p>
        {keeping.hasAims && `${youngText(young)} `}
        {carried.length > 0 && `It ${carried.join('; it ')}.`}
      </p>
      <p className="lw-quiet">
        {keeping.number !== null && `${keepText(keeping.number)}. `}
        {keptText(keeping)}
      </p>
      {keeping.hasAims && (
        <details className="lw-folded" onToggle={(event) => setOpen(event.currentTarget.open)}>
          <summary>Picture: worth to the line, with its sibs</summary>
          {open && (
            <YoungWorths
              title="What each young is worth to the line"
              groups={worthGroups(
                keeping.young.edges.map(({ node }) => node),
                keeping.number,
              )}
              fishId={young.fish.id}
              sameFigures="The same figures stand in the table on the spawn’s page."
            />
          )}
        </details>
      )}
    </>
  );
}
