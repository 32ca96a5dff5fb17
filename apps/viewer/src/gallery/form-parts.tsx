import { Button } from '@mantine/core';
import { useState, type ReactNode } from 'react';
import { useForm } from 'react-hook-form';
import { WITHDRAW_FISH } from '../api/fish.js';
import type { Problem } from '../api/problem.js';
import { ConflictNotice } from '../components/conflict-notice.js';
import { CorrectionForm } from '../components/correction-form.js';
import { DateField, TextField } from '../components/fields.js';
import { RecordForm } from '../components/record-form.js';
import { Sheet } from '../components/sheet.js';
import { UnsavedQuestion } from '../components/unsaved-question.js';
import { ReasonForm, WithdrawForm, WithdrawSheet } from '../components/withdraw-form.js';
import { WithdrawRecord } from '../components/withdraw-record.js';
import { Answering, refuses } from './invented-api.js';
import { longWords, masked, nothing, severalFields } from './invented-words.js';
import type { Parts } from './parts.js';

const values = { tag: 'T24-07-12', hatchDate: '2026-03-12' };
const conflicts = [
  { field: 'tag', mine: 'T24-07-12', saved: 'T24-07-21' },
  { field: 'note', mine: '', saved: longWords },
];

interface FormProps {
  saving?: boolean;
  problem?: Problem | null;
  danger?: boolean;
}

function AForm({ saving = false, problem = null, danger = false }: FormProps) {
  const form = useForm({ defaultValues: values });
  return (
    <RecordForm
      form={form}
      submit={danger ? 'Withdraw' : 'Save fish'}
      danger={danger}
      saving={saving}
      problem={problem}
      onCancel={nothing}
      onSubmit={nothing}
    >
      <TextField name="tag" label="Tag" required />
      <DateField name="hatchDate" label="Hatched on" />
    </RecordForm>
  );
}

function ACorrection({ changed }: { changed: boolean }) {
  const form = useForm({ defaultValues: values });
  const recorded = { ...values, id: 'f1', revision: 3 };
  return (
    <CorrectionForm
      form={form}
      correction={{
        opened: recorded,
        changed: changed ? recorded : null,
        saving: false,
        problem: null,
        save: () => Promise.resolve(false),
      }}
      sent={(typed) => typed}
      conflictsWith={() => conflicts}
      onSaved={nothing}
      onCancel={nothing}
    >
      <TextField name="tag" label="Tag" required />
    </CorrectionForm>
  );
}

/** What stands over the page comes up when asked for, so that the rest can be seen. */
function Over({ of, children }: { of: string; children: (close: () => void) => ReactNode }) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button onClick={() => setOpen(true)}>Bring up: {of}</Button>
      {open && children(() => setOpen(false))}
    </>
  );
}

/** Whole forms, and what asks before something is lost. */
export const formParts: Parts = {
  RecordForm: {
    filled: () => <AForm />,
    saving: () => <AForm saving />,
    'refused: fields of it': () => <AForm problem={severalFields} />,
    'refused: something else': () => <AForm problem={masked} />,
    'what cannot be taken back easily': () => <AForm danger />,
  },
  CorrectionForm: {
    opened: () => <ACorrection changed={false} />,
    'changed meanwhile': () => <ACorrection changed />,
  },
  ConflictNotice: {
    'two fields': () => (
      <ConflictNotice conflicts={conflicts} onKeepMine={nothing} onTakeSaved={nothing} />
    ),
    'the same was typed': () => (
      <ConflictNotice conflicts={[]} onKeepMine={nothing} onTakeSaved={nothing} />
    ),
  },
  ReasonForm: {
    empty: () => (
      <ReasonForm
        submit="Take it back"
        saving={false}
        problem={null}
        onCancel={nothing}
        onSubmit={nothing}
      >
        <p>{longWords}</p>
      </ReasonForm>
    ),
  },
  WithdrawRecord: {
    'over the page; the API refuses it': () => (
      <Answering with={[refuses(WITHDRAW_FISH, 'It has young: withdraw them first.')]}>
        <Over of="withdrawal of a record">
          {(close) => (
            <WithdrawRecord
              mutation={WITHDRAW_FISH}
              record={{ id: 'f1', revision: 2 }}
              title="Withdraw fish"
              what="fish T24-07-12"
              onClose={close}
            />
          )}
        </Over>
      </Answering>
    ),
  },
  WithdrawForm: {
    empty: () => (
      <WithdrawForm
        what="fish T24-07-12"
        saving={false}
        problem={null}
        onCancel={nothing}
        onSubmit={nothing}
      />
    ),
    'refused, and saving again': () => (
      <WithdrawForm
        what={longWords}
        verb="Take back"
        saving
        problem={masked}
        onCancel={nothing}
        onSubmit={nothing}
      />
    ),
  },
  WithdrawSheet: {
    'over the page': () => (
      <Over of="withdrawal">
        {(close) => (
          <WithdrawSheet
            title="Withdraw fish"
            opened
            onClose={close}
            what="fish T24-07-12"
            saving={false}
            problem={null}
            onSubmit={close}
          />
        )}
      </Over>
    ),
  },
  Sheet: {
    'over the page': () => (
      <Over of="sheet">
        {(close) => (
          <Sheet title={longWords} opened onClose={close}>
            <p>{longWords}</p>
          </Sheet>
        )}
      </Over>
    ),
  },
  UnsavedQuestion: {
    'over the page': () => (
      <Over of="question">
        {(close) => <UnsavedQuestion opened onStay={close} onLeave={close} />}
      </Over>
    ),
  },
};
