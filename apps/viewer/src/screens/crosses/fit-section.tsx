import { TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { GOODNESS_OF_FIT, type Cross } from '../../api/heredity.js';
import { useRead, type Read } from '../../api/use-read.js';
import { optionalWholeNumber } from '../../components/field-rules.js';
import { FitResult } from '../../components/fit-result.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { ClassBars } from '../../drawings/index.js';
import { plural } from '../../wording/figures.js';
import styles from './crosses.module.css';
import type { Fit } from '../../api/heredity.js';

type Typed = Readonly<Record<string, string>>;

/** Counts as typed, by class; blank is 0. Null when one of them is no count. */
function countsOf(cross: Cross, typed: Typed): number[] | null {
  const counts = cross.classes.map((each) => {
    const read = optionalWholeNumber.safeParse(typed[each.phenotype] ?? '');
    return read.success ? (read.data ?? 0) : null;
  });
  return counts.every((count) => count !== null) ? counts : null;
}

/** Sets a brood as counted against the fractions of the cross. */
export function FitSection({ cross }: { cross: Cross }) {
  const [typed, setTyped] = useState<Typed>({});
  const [settled] = useDebouncedValue(typed, 300);
  const counts = countsOf(cross, settled);
  const total = (counts ?? []).reduce((sum, count) => sum + count, 0);
  const read = useRead(
    GOODNESS_OF_FIT,
    {
      input: {
        observed: cross.classes.map((each, place) => ({
          name: each.phenotype,
          observed: counts?.[place] ?? 0,
          fraction: each.fraction,
        })),
      },
    },
    { pause: total === 0 },
  );
  return (
    <Section title="Does a brood fit?">
      <p className="lw-quiet">
        Count a brood by class, at an age when the classes can be distinguished, and type the
        counts. Blank is 0.
      </p>
      <div className={styles['counts']} role="group" aria-label="Observed counts">
        {cross.classes.map(({ phenotype }) => {
          const text = typed[phenotype] ?? '';
          const ok = optionalWholeNumber.safeParse(text).success;
          return (
            <ObservedField
              key={phenotype}
              phenotype={phenotype}
              text={text}
              ok={ok}
              setTyped={setTyped}
            />
          );
        })}
      </div>
      <Comparison total={total} cross={cross} counts={counts} read={read} />
    </Section>
  );
}

interface ComparisonProps {
  total: number;
  cross: Cross;
  counts: number[] | null;
  read: Read<{ goodnessOfFit: Fit }>;
}

function Comparison({ total, cross, counts, read }: ComparisonProps) {
  return (
    total > 0 && (
      <>
        <ClassBars
          classes={cross.classes.map((each, place) => ({
            id: each.phenotype,
            label: each.phenotype,
            fraction: each.fraction,
            probability: each.probability,
            observed: counts?.[place] ?? 0,
          }))}
          broodSize={total}
          title="Observed and expected"
          caption={`${plural(total, 'fish', 'fish')} counted.`}
        />
        <Shown read={read} what="the test of fit">
          {({ goodnessOfFit }) => (
            <div role="status">
              <FitResult fit={goodnessOfFit} />
            </div>
          )}
        </Shown>
      </>
    )
  );
}

function ObservedField({
  phenotype,
  text,
  ok,
  setTyped,
}: {
  phenotype: string;
  text: string;
  ok: boolean;
  setTyped: Dispatch<SetStateAction<Readonly<Record<string, string>>>>;
}) {
  return (
    <TextInput
      label={`Observed: ${phenotype}`}
      inputMode="numeric"
      value={text}
      error={ok ? undefined : 'Give a whole number.'}
      onChange={(event) => {
        const { value } = event.currentTarget;
        setTyped((before) => ({ ...before, [phenotype]: value }));
      }}
    />
  );
}
