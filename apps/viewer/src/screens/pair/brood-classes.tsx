import { useState } from 'react';
import type { PlannedBrood } from '../../api/pairings.js';
import { CrossClasses } from '../../components/cross-classes.js';
import { Section } from '../../components/section.js';
import { ClassBars } from '../../drawings/index.js';
import { BroodSizeField, broodSizeIn } from '../../panels/brood-size-field.js';
import { FryToRaise } from '../../panels/fry-to-raise.js';
import type { Cross } from '../../api/heredity.js';

/** Several loci at once, by the genotypes on record alone: classes for a brood of the person's size, and how many fry it takes to see one. */
export function BroodClasses({ brood }: { brood: PlannedBrood }) {
  const [typed, setTyped] = useState('100');
  const { classes: cross } = brood;
  const broodSize = broodSizeIn(typed);
  const counted = {
    ...cross,
    classes: cross.classes.map((each) => ({
      ...each,
      expectedCount: broodSize === null ? null : each.probability * broodSize,
    })),
  };
  if (cross.classes.length === 0) return null;
  return (
    <Section title="By the genotypes on record alone">
      <p className="lw-words lw-quiet">
        Several loci at once, as if what is on record of both fish were certain; loci are taken as
        unlinked.
      </p>
      <BroodSizeField label="Brood size" typed={typed} onTyped={setTyped} />
      <CrossClasses cross={counted} />
      <BroodBars broodSize={broodSize} cross={cross} />
      <h3>Fry to raise</h3>
      <FryToRaise classes={cross.classes} />
    </Section>
  );
}

function BroodBars({ broodSize, cross }: { broodSize: number | null; cross: Cross }) {
  return (
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
