import { useState } from 'react';
import { FISH_MERIT } from '../../api/merit.js';
import { useRead } from '../../api/use-read.js';
import { passedOnSentence } from '../../panels/passed-on.js';
import type { BenchFish } from './bench-facts.js';

/** What the fish in hand passes on, beside its scores: asked of the server only while it is open, and it stays open from fish to fish. */
export function PassesOnLines({ fish }: { fish: BenchFish }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="lw-folded" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>What it passes on</summary>
      {open && <Lines fish={fish} />}
    </details>
  );
}

function Lines({ fish }: { fish: BenchFish }) {
  const read = useRead(FISH_MERIT, { id: fish.id });
  if (read.data === undefined)
    return (
      <p className="lw-quiet" role="status">
        {read.problem === null ? 'Being worked out…' : 'Needs a connection to the server.'}
      </p>
    );
  const told = read.data.fish.merit.flatMap((merit) => {
    const sentence = passedOnSentence(merit);
    return sentence === null ? [] : [{ trait: merit.trait, sentence }];
  });
  if (told.length === 0)
    return <p className="lw-quiet">Nothing can be said of it yet: too few relatives are scored.</p>;
  return (
    <ul>
      {told.map(({ trait, sentence }) => (
        <li key={trait.id}>
          <strong>{trait.name}.</strong> {sentence}
        </li>
      ))}
    </ul>
  );
}
