import { useState } from 'react';
import { isGoing } from '../../api/carriers.js';
import { FISH_MERIT, type FishMerit } from '../../api/merit.js';
import { useReadAgain } from '../../api/use-read-again.js';
import { useRead } from '../../api/use-read.js';
import { passedOnSentence, PassedOnPicture } from '../../panels/passed-on.js';
import { SelectedScores } from '../../panels/selected-scores.js';
import { takenInText } from '../../wording/merit-advice.js';
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

/** Between two looks at whether it is worked out. */
const AFTER_MS = 2000;

function Lines({ fish }: { fish: BenchFish }) {
  const read = useRead(FISH_MERIT, { id: fish.id });
  const { line, merit: all } = read.data?.fish ?? { line: null, merit: [] };
  const going = all.some(({ waiting }) => waiting !== null && isGoing(waiting));
  useReadAgain(read, { going, afterMs: AFTER_MS });
  const told = all.flatMap((merit) => {
    const sentence = passedOnSentence(merit);
    return sentence === null ? [] : [{ merit, sentence }];
  });
  if (read.data === undefined || (told.length === 0 && going))
    return (
      <p className="lw-quiet" role="status">
        {read.problem === null ? 'Being worked out…' : 'Needs a connection to the server.'}
      </p>
    );
  if (told.length === 0)
    return <p className="lw-quiet">Nothing can be said of it yet: too few relatives are scored.</p>;
  return (
    <>
      <ul>
        {told.map(({ merit, sentence }) => (
          <li key={merit.trait.id}>
            <strong>{merit.trait.name}.</strong> {sentence}
            <TakenIn merit={merit} />
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

function TakenIn({ merit: { scoresTakenInSince, waiting } }: { merit: FishMerit }) {
  const told = takenInText(scoresTakenInSince);
  if (told === null || waiting === null) return null;
  return (
    <p className="lw-quiet">
      {isGoing(waiting) ? 'Being worked out again' : 'Not worked out again'}: {told}
    </p>
  );
}
