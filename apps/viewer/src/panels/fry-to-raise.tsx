import { NativeSelect, TextInput } from '@mantine/core';
import { useDebouncedValue } from '@mantine/hooks';
import { useState } from 'react';
import { BROOD_SIZE } from '../api/crosses.js';
import type { Cross } from '../api/heredity.js';
import { useRead, type Read } from '../api/use-read.js';
import { wholeNumber, requiredNumber } from '../components/field-rules.js';
import { Shown } from '../components/states.js';
import { plural } from '../wording/figures.js';

/** "3/4", or "all" for a class that every young belongs to. */
const shareWords = (fraction: string): string => (fraction === '1' ? 'all' : fraction);

interface Asked {
  atLeast: string;
  certainty: string;
  survival: string;
}

function read(asked: Asked) {
  const atLeast = wholeNumber(1, 1000).safeParse(asked.atLeast);
  const certainty = requiredNumber.safeParse(asked.certainty);
  const survival = requiredNumber.safeParse(asked.survival);
  const sure = certainty.success && certainty.data > 0 && certainty.data < 100;
  const living = survival.success && survival.data > 0 && survival.data <= 100;
  return {
    errors: {
      atLeast: atLeast.success ? undefined : 'Give a whole number from 1 to 1,000.',
      certainty: sure ? undefined : 'Give a percentage above 0 and below 100.',
      survival: living ? undefined : 'Give a percentage above 0, at most 100.',
    },
    input:
      atLeast.success && sure && living
        ? {
            atLeast: atLeast.data,
            certainty: certainty.data / 100,
            survival: survival.data / 100,
          }
        : null,
  };
}

/** How many fry to start with to see enough of one class, at a certainty and a survival of the person's choosing. */
export function FryToRaise({ classes }: { classes: Cross['classes'] }) {
  const [chosen, setChosen] = useState('');
  const [asked, setAsked] = useState<Asked>({ atLeast: '1', certainty: '95', survival: '100' });
  const [settled] = useDebouncedValue(asked, 250);
  const wanted = classes.find((each) => each.phenotype === chosen) ?? classes.at(-1);
  const { input } = read(settled);
  const { errors } = read(asked);
  const answer = useRead(
    BROOD_SIZE,
    {
      input: {
        fraction: wanted?.fraction ?? '1',
        // Uncertain parents: a brood comes from one pair, so all that the share may be counts, not its mean.
        ...(wanted !== undefined && wanted.shares.length > 1 && { shares: wanted.shares }),
        ...(input ?? {}),
      },
    },
    { pause: wanted === undefined || input === null },
  );
  if (wanted === undefined) return null;
  const field = (name: keyof Asked, label: string) => (
    <TextInput
      label={label}
      inputMode="decimal"
      value={asked[name]}
      error={errors[name]}
      onChange={(event) => {
        const { value } = event.currentTarget;
        setAsked((before) => ({ ...before, [name]: value }));
      }}
    />
  );
  return (
    <>
      <div className="lw-filter" role="group" aria-label="Fry to raise">
        <NativeSelect
          className="lw-filter-text"
          label="Class wanted"
          value={wanted.phenotype}
          onChange={(event) => setChosen(event.currentTarget.value)}
          data={classes.map((each) => ({
            value: each.phenotype,
            label: `${each.phenotype} (${shareWords(each.fraction)})`,
          }))}
        />
        {field('atLeast', 'At least')}
        {field('certainty', 'Certainty, %')}
        {field('survival', 'Survive to scoring, %')}
      </div>
      <FryAnswer input={input} answer={answer} wanted={wanted} />
    </>
  );
}

function FryAnswer({
  input,
  answer,
  wanted,
}: {
  input: { atLeast: number; certainty: number; survival: number } | null;
  answer: Read<{ broodSize: number }>;
  wanted: Cross['classes'][number];
}) {
  return (
    input !== null && (
      <Shown read={answer} what="the number of fry">
        {({ broodSize }) => (
          <p role="status">
            Start with <strong>{plural(broodSize, 'fry', 'fry')}</strong> to see at least{' '}
            {input.atLeast} {wanted.phenotype} ({shareWords(wanted.fraction)} of the brood) in{' '}
            {Number((input.certainty * 100).toFixed(4))} of 100 such broods
            {input.survival < 1 &&
              `, when ${Number((input.survival * 100).toFixed(4))} % survive until the class can be seen`}
            .
          </p>
        )}
      </Shown>
    )
  );
}
