import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { ClubRequest } from '../api/club.js';
import { FISH_LIST } from '../api/fish.js';
import { useRead } from '../api/use-read.js';
import { Empty, Shown } from '../components/states.js';

const KINDS = { FISH: 'GIFT', LOAN: 'LOAN', STUD: 'LOAN' } as const;

/** After a yes: the fish in use of the line, each with the way to offering it to whoever asked. For a stud either lends to the other. */
export function FishToHandOver({ request }: { request: ClubRequest }) {
  const [open, setOpen] = useState(false);
  const { id, what, mine, from, to, lineId } = request;
  const who = mine ? to : from;
  return (
    <>
      <div className="lw-form-buttons">
        <Button
          size="xs"
          aria-expanded={open}
          aria-label={`Choose the fish for ${who.name}`}
          onClick={() => setOpen(!open)}
        >
          Choose the fish
        </Button>
      </div>
      {open && (
        <Fish lineId={mine ? null : lineId} to={`to=${who.id}&kind=${KINDS[what]}&request=${id}`} />
      )}
    </>
  );
}

/** @param lineId `null`: of whichever line one has */
function Fish({ lineId, to }: { lineId: string | null; to: string }) {
  const read = useRead(FISH_LIST, {
    first: 100,
    filter: { ...(lineId !== null && { lineIds: [lineId] }), inUse: true },
    sort: { field: 'TAG', direction: 'ASC' },
  });
  return (
    <Shown read={read} what="the fish">
      {({ fishList }) =>
        fishList.totalCount === 0 ? (
          <Empty>
            {lineId === null ? 'None of your fish is in use.' : 'No fish of this line is in use.'}
          </Empty>
        ) : (
          <p className="lw-words">
            {fishList.edges.map(({ node }) => (
              <Link
                key={node.id}
                className="lw-link-button"
                to={`/fish/${node.id}/hand-over?${to}`}
              >
                Offer {node.tag}
              </Link>
            ))}
            {fishList.totalCount > fishList.edges.length && (
              <span className="lw-quiet">
                {' '}
                {fishList.edges.length} of {fishList.totalCount} fish in use are listed; the others
                are offered from their own page.
              </span>
            )}
          </p>
        )
      }
    </Shown>
  );
}
