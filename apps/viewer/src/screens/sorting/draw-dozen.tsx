import { Button } from '@mantine/core';
import { daysBetween } from '@linewright/care';
import { DOZEN } from '@linewright/merit';
import { useState } from 'react';
import { DRAW_FOR_SCORING, SCORING_DRAWS } from '../../api/merit.js';
import { newId } from '../../api/new-id.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ProblemNotice } from '../../components/notice.js';
import { plural } from '../../wording/figures.js';
import { fitsAge, type Bench } from './bench-facts.js';
import styles from './sorting.module.css';
import { drawnFish, leftToDraw, type DrawnFish } from './drawn-fish.js';

/** Fewer young are no sample worth drawing: score them all. */
const FEWEST = 3;

interface DrawDozenProps {
  bench: Bench;
  /** Day of the entries. */
  on: string;
  /** Goes to a fish at the bench. */
  onFish: (fishId: string) => void;
}

/** The offer to let chance choose a dozen of the brood, and those it chose. Needs a connection: chance is asked of the server. */
export function DrawDozen({ bench, on, onFish }: DrawDozenProps) {
  const read = useRead(SCORING_DRAWS, { spawnId: bench.id });
  const draw = useSave(DRAW_FOR_SCORING);
  // One id until it is saved, so that a second tap after a lost answer draws nothing more.
  const [id, setId] = useState(newId);
  const draws = read.data?.spawn.scoringDraws;
  if (draws === undefined) return null;
  const drawn = drawnFish(draws, bench.fish, ({ hatchDate }) =>
    bench.traits.filter((trait) =>
      fitsAge(trait, hatchDate === null ? null : daysBetween(hatchDate, on)),
    ),
  );
  const left = leftToDraw(draws, bench.fish);
  if (drawn.length > 0) return <Drawn drawn={drawn} onFish={onFish} />;
  if (left < FEWEST) return null;
  return (
    <div className="lw-notice" role="note">
      <p>
        <strong>Before you sort: </strong>a random dozen scored now says more about what is
        inherited than fifty keepers scored later. Chance must choose, not the eye.
      </p>
      <Button
        size="md"
        loading={draw.saving}
        onClick={() =>
          void draw
            .save({ input: { id, spawnId: bench.id, further: draws.length > 0 } })
            .then((saved) => {
              if (saved !== null) setId(newId());
            })
        }
      >
        {left > DOZEN ? 'Draw a dozen to score' : `Draw all ${left} to score`}
      </Button>
      <ProblemNotice problem={draw.problem} />
    </div>
  );
}

function Drawn({
  drawn,
  onFish,
}: Pick<DrawDozenProps, 'onFish'> & { drawn: readonly DrawnFish[] }) {
  const open = drawn.filter(({ scored }) => !scored);
  return (
    <div className="lw-notice" role="note">
      <p>
        <strong>
          Chance chose {plural(drawn.length, 'fish', 'fish')}
          {open.length === 0 ? ', and all are scored. ' : ': score these before you sort. '}
        </strong>
        {open.length > 0 &&
          `${drawn.length - open.length} of ${drawn.length} are scored on every trait of their age.`}
      </p>
      {open.length > 0 && (
        <div className={styles['chips']} role="group" aria-label="Drawn, not scored yet">
          {open.map(({ fish }) => (
            <button
              key={fish.id}
              type="button"
              className={styles['chip']}
              onClick={() => onFish(fish.id)}
            >
              {fish.tag}
            </button>
          ))}
        </div>
      )}
    </div>
  );
}
