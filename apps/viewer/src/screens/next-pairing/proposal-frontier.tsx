import { Button, Slider } from '@mantine/core';
import { useState } from 'react';
import type { Proposal } from '../../api/rounds.js';
import { WorthAgainstKinship } from '../../drawings/index.js';
import { percent, plainNumber } from '../../wording/figures.js';
import { WITHIN_ERROR } from './proposal-words.js';
import styles from './proposal.module.css';

interface ProposalFrontierProps {
  proposal: Proposal;
  /** What was chosen here; null: as the line's purpose has it. */
  limit: number | null;
  onLimit: (limit: number | null) => void;
}

/** Worth against kinship, drawn, and a slider along it. */
export function ProposalFrontier({ proposal, limit, onLimit }: ProposalFrontierProps) {
  const { frontier, kinship, worth } = proposal;
  const nearest = frontier.reduce(
    (best, point, k) =>
      Math.abs(point.kinship - kinship) < Math.abs(frontier[best]!.kinship - kinship) ? k : best,
    0,
  );
  // What was slid to stands until its pairs are there: keys that follow each other go on from it.
  const [slid, setSlid] = useState({ from: proposal, to: nearest });
  const place = slid.from === proposal ? slid.to : nearest;
  const shown = frontier[place]!;
  return (
    <div className={styles['frontier']}>
      <WorthAgainstKinship
        title="What more kinship would buy"
        points={frontier}
        now={{ worth, kinship }}
      />
      <label id="kinship-allowed">How much kinship you allow</label>
      <Slider
        aria-labelledby="kinship-allowed"
        thumbLabel="How much kinship you allow"
        thumbValueText={(k) => percent(frontier[k]!.kinship)}
        min={0}
        max={frontier.length - 1}
        step={1}
        value={place}
        label={null}
        onChange={(to) => setSlid({ from: proposal, to })}
        onChangeEnd={(k) => {
          // A little above, so that the point itself is within it.
          onLimit(Math.min(1, frontier[k]!.kinship + 1e-7));
        }}
      />
      <p role="status">
        Here: mean worth {plainNumber(shown.worth)} points, kinship {percent(shown.kinship)}, mean F{' '}
        {percent(shown.inbreeding)}.{' '}
        {!shown.toldApart && shown.kinship !== kinship && `${WITHIN_ERROR} `}
        {limit !== null && (
          <Button size="compact-sm" onClick={() => onLimit(null)}>
            Back to the limit of this line
          </Button>
        )}
      </p>
    </div>
  );
}
