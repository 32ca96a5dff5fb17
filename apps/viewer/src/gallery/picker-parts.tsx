import { useState } from 'react';
import { FISH_CHOICES, FISH_NAME } from '../api/fish.js';
import { LINE_CHOICES } from '../api/lines.js';
import { FishField, FishPicker } from '../pickers/fish-picker.js';
import { LineField } from '../pickers/line-field.js';
import { SeveralField } from '../pickers/several-field.js';
import { InAForm } from './in-a-form.js';
import { Answering, answers, neverAnswers } from './invented-api.js';
import { fishChoices, lineChoices, sire } from './invented-records.js';
import { longWords } from './invented-words.js';
import type { Parts } from './parts.js';

const stock = [answers(FISH_CHOICES, fishChoices), answers(FISH_NAME, { fish: sire })];
const lines = [answers(LINE_CHOICES, { lines: lineChoices })];
const several = lineChoices.map(({ id, code }) => ({ value: id, label: code }));

function Picking({ at, error }: { at: string | null; error?: string }) {
  const [value, setValue] = useState(at);
  return (
    <FishPicker label="Sire" value={value} onChange={setValue} hint="Any male." error={error} />
  );
}

function Several({ at }: { at: readonly string[] }) {
  const [value, setValue] = useState<readonly string[]>(at);
  return (
    <SeveralField
      label="Lines"
      none="all lines"
      choices={several}
      value={value}
      onChange={setValue}
    />
  );
}

/** Fields that look among the records; here among invented ones. */
export const pickerParts: Parts = {
  FishPicker: {
    'none chosen': () => (
      <Answering with={stock}>
        <Picking at={null} />
      </Answering>
    ),
    chosen: () => (
      <Answering with={stock}>
        <Picking at={sire.id} />
      </Answering>
    ),
    'with a mistake, its answer on its way': () => (
      <Answering with={[neverAnswers(FISH_CHOICES)]}>
        <Picking at={null} error={`Choose the sire. ${longWords}`} />
      </Answering>
    ),
  },
  FishField: {
    'chosen, in a form': () => (
      <Answering with={stock}>
        <InAForm values={{ sireId: sire.id }}>
          <FishField name="sireId" label="Sire" required />
        </InAForm>
      </Answering>
    ),
  },
  LineField: {
    chosen: () => (
      <Answering with={lines}>
        <InAForm values={{ lineId: 'l1' }}>
          <LineField />
        </InAForm>
      </Answering>
    ),
  },
  SeveralField: {
    'none chosen': () => <Several at={[]} />,
    'all chosen': () => <Several at={several.map(({ value }) => value)} />,
  },
};
