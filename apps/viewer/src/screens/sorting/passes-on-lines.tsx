import { useState } from 'react';
import { FISH_MERIT } from '../../api/merit.js';
import { useRead } from '../../api/use-read.js';
import { passedOnSentence, PassedOnPicture } from '../../panels/passed-on.js';
import { SelectedScores } from '../../panels/selected-scores.js';
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
  const { line, merit: all } = read.data.fish;
  const told = all.flatMap((merit) => {
    const sentence = passedOnSentence(merit);
    return sentence === null ? [] : [{ merit, sentence }];
  });
  if (told.length === 0)
    return <p className="lw-quiet">Nothing can be said of it yet: too few relatives are scored.</p>;
  return (
    <>
      <ul>
        {told.map(({ merit, sentence }) => (
          <li key={merit.trait.id}>
            <strong>{merit.trait.name}.</strong> {sentence}
            <PassedOnPicture fish={{ id: fish.id, tag: fish.tag, line }} merit={merit} />
          </li>
        ))}
      </ul>
      <SelectedScores
        of={told.map(({ merit: { trait, selectionCaution } }) => ({
          name: trait.name,
          selectionCaution,
        }))}
      />
    </>
  );
}
