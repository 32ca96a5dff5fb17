import {
  ChoiceField,
  DateField,
  LongTextField,
  NumberField,
  SecretField,
  TextField,
  TickField,
} from '../components/fields.js';
import { FieldRow } from '../components/record-form.js';
import { SecretAddress } from '../components/secret-address.js';
import { QrCode } from '../components/qr-code.js';
import { ShownOnce } from '../components/shown-once.js';
import { TextFile } from '../components/text-file.js';
import { UnitChoice, UnitChoiceField } from '../components/unit-choice.js';
import { InAForm } from './in-a-form.js';
import { longWords, nothing } from './invented-words.js';
import type { Parts } from './parts.js';

const file = {
  choose: 'Choose a file',
  accept: '.csv',
  pasteLabel: 'Or paste the text',
  onFile: nothing,
  onText: nothing,
};
const wrong = { field: 'Give a number from 0 to 14.' };
const lines = [
  { value: 'T', label: 'T · Turquoise' },
  { value: 'L', label: longWords },
];

/** Fields of a form: empty, filled, with a mistake. */
export const fieldParts: Parts = {
  TextField: {
    empty: () => (
      <InAForm>
        <TextField name="field" label="Tag" hint="As it stands on the jar." required />
      </InAForm>
    ),
    'filled, with a unit': () => (
      <InAForm values={{ field: longWords }}>
        <TextField name="field" label="Note" unit="mg/L" />
      </InAForm>
    ),
    'with a mistake': () => (
      <InAForm values={{ field: '' }} errors={{ field: `Give a tag. ${longWords}` }}>
        <TextField name="field" label="Tag" required />
      </InAForm>
    ),
  },
  DateField: {
    empty: () => (
      <InAForm>
        <DateField name="field" label="Hatched on" />
      </InAForm>
    ),
    filled: () => (
      <InAForm values={{ field: '2026-03-12' }}>
        <DateField name="field" label="Hatched on" required />
      </InAForm>
    ),
  },
  NumberField: {
    filled: () => (
      <InAForm values={{ field: '6.8' }}>
        <NumberField name="field" label="pH" />
      </InAForm>
    ),
    'with a mistake': () => (
      <InAForm values={{ field: 'seven' }} errors={wrong}>
        <NumberField name="field" label="pH" unit="pH" />
      </InAForm>
    ),
  },
  SecretField: {
    empty: () => (
      <InAForm>
        <SecretField name="field" label="Password" autoComplete="off" />
      </InAForm>
    ),
    'with a mistake': () => (
      <InAForm errors={{ field: 'That is not the password.' }}>
        <SecretField name="field" label="Password" autoComplete="off" hint={longWords} />
      </InAForm>
    ),
  },
  LongTextField: {
    filled: () => (
      <InAForm values={{ field: longWords }}>
        <LongTextField name="field" label="Note" hint="For yourself." />
      </InAForm>
    ),
    'with a mistake': () => (
      <InAForm errors={{ field: 'Say why.' }}>
        <LongTextField name="field" label="Reason" required />
      </InAForm>
    ),
  },
  ChoiceField: {
    chosen: () => (
      <InAForm values={{ field: 'L' }}>
        <ChoiceField name="field" label="Line" choices={lines} />
      </InAForm>
    ),
    'no choices, with a mistake': () => (
      <InAForm errors={{ field: 'Choose a line.' }}>
        <ChoiceField name="field" label="Line" choices={[]} required />
      </InAForm>
    ),
  },
  TickField: {
    'ticked, and with a mistake': () => (
      <InAForm values={{ field: true }} errors={{ other: 'Tick it to go on.' }}>
        <TickField name="field" label="Count it" hint={longWords} />
        <TickField name="other" label="Plan this pair anyway" />
      </InAForm>
    ),
  },
  FieldRow: {
    'three fields': () => (
      <InAForm values={{ a: '0.5', b: '7.2', c: '26' }}>
        <FieldRow>
          <NumberField name="a" label="Total ammonia" unit="mg/L" />
          <NumberField name="b" label="pH" />
          <NumberField name="c" label="Temperature" unit="°C" />
        </FieldRow>
      </InAForm>
    ),
  },
  UnitChoice: {
    'none chosen, with a mistake': () => (
      <UnitChoice name="unit none" value="" onChange={nothing} error="Choose what it prints." />
    ),
    chosen: () => <UnitChoice name="unit chosen" value="NH4" onChange={nothing} />,
  },
  UnitChoiceField: {
    chosen: () => (
      <InAForm values={{ unitField: 'N' }}>
        <UnitChoiceField name="unitField" />
      </InAForm>
    ),
  },
  SecretAddress: {
    'to be copied': () => (
      <SecretAddress address="https://fish.example/join#token" elsewhere="make it there.">
        Shown this once.
      </SecretAddress>
    ),
  },
  QrCode: {
    drawn: () => (
      <QrCode
        qr={{ size: 15, path: 'M4 4h7v1h-7zM4 5h1v6h-1zM10 5h1v6h-1zM6 6h3v3h-3zM4 10h7v1h-7z' }}
        label="A corner of a code"
      />
    ),
  },
  ShownOnce: {
    'codes to be written down': () => (
      <ShownOnce secrets={['ABCD-EFGH-2345-6767', 'BCDE-FGHI-3456-7272']}>
        Shown this once.
      </ShownOnce>
    ),
  },
  TextFile: {
    'nothing chosen': () => <TextFile {...file} busy={false} />,
    busy: () => <TextFile {...file} choose="Choose another file" busy />,
  },
};
