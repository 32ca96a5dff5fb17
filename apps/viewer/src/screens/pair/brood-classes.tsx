import { TextInput } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { PlannedBrood } from '../../api/pairings.js';
import { CrossClasses } from '../../components/cross-classes.js';
import { wholeNumber } from '../../components/field-rules.js';
import { Section } from '../../components/section.js';
import { ClassBars } from '../../drawings/index.js';
import { FryToRaise } from '../../panels/fry-to-raise.js';
import type { Cross } from '../../api/heredity.js';

const broodRule = wholeNumber(1, 5000);

/** Classes expected of the pair for a brood of the person's size, and how many fry it takes to see one. */
export function BroodClasses({ brood }: { brood: PlannedBrood }) {
  const [typed, setTyped] = useState('100');
  const { sire, dam, classes: cross } = brood;
  const read = broodRule.safeParse(typed);
  const broodSize = read.success ? read.data : null;
  const counted = {
    ...cross,
    classes: cross.classes.map((each) => ({
      ...each,
      expectedCount: broodSize === null ? null : each.probability * broodSize,
    })),
  };
  const known = cross.classes.length > 0;
  return (
    <Section title="Expected classes">
      {known && (
        <div className="lw-filter">
          <TextInput
            label="Brood size"
            inputMode="numeric"
            value={typed}
            error={read.success ? undefined : 'Give a whole number from 1 to 5,000.'}
            onChange={(event) => setTyped(event.currentTarget.value)}
          />
        </div>
      )}
      <CrossClasses cross={counted} />
      <RecordGenotypesFirst known={known} sire={sire} dam={dam} />
      <BroodBars known={known} broodSize={broodSize} cross={cross} />
      {known && (
        <>
          <h3>Fry to raise</h3>
          <FryToRaise classes={cross.classes} />
          <p className="lw-quiet">
            From the genotypes recorded for both parents; loci are taken as unlinked.
          </p>
        </>
      )}
    </Section>
  );
}

function RecordGenotypesFirst({
  known,
  sire,
  dam,
}: {
  known: boolean;
  sire: PlannedBrood['sire'];
  dam: PlannedBrood['sire'];
}) {
  return (
    !known && (
      <p>
        Record genotypes of <Link to={`/fish/${sire.id}`}>{sire.tag}</Link> and{' '}
        <Link to={`/fish/${dam.id}`}>{dam.tag}</Link>, or try a{' '}
        <Link to="/crosses">cross by genotype</Link>.
      </p>
    )
  );
}

function BroodBars({
  known,
  broodSize,
  cross,
}: {
  known: boolean;
  broodSize: number | null;
  cross: Cross;
}) {
  return (
    known &&
    broodSize !== null &&
    cross.classes.length > 1 && (
      <ClassBars
        classes={cross.classes.map((each) => ({
          id: each.phenotype,
          label: each.phenotype,
          fraction: each.fraction,
          probability: each.probability,
        }))}
        broodSize={broodSize}
      />
    )
  );
}
