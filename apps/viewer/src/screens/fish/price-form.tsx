import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CORRECT_FISH_DEAL, type FishDeal, RECORD_FISH_DEAL } from '../../api/deals.js';
import { newId } from '../../api/new-id.js';
import { useSave } from '../../api/use-save.js';
import { optionalNumber, optionalText, requiredDate } from '../../components/field-rules.js';
import { ChoiceField, DateField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';
import { amountText, currencies, decimalsOf, smallestUnits } from '../../wording/money.js';
import { DEAL_WORDS } from './price-words.js';

const schema = z
  .object({
    kind: z.enum(['BOUGHT', 'ASKED', 'SOLD', 'GIVEN', 'SWAPPED']),
    onDate: requiredDate,
    amount: optionalNumber,
    currency: optionalText,
    withWhom: optionalText,
    note: optionalText,
  })
  .superRefine(({ amount, currency }, context) => {
    const say = (path: string, message: string) =>
      context.addIssue({ code: 'custom', path: [path], message });
    if (amount === null && currency !== null)
      say('amount', 'Give the amount, or choose no currency.');
    if (amount === null) return;
    if (amount < 0) say('amount', 'Give an amount of 0 or more.');
    if (currency === null) say('currency', 'Choose the currency.');
    else if (smallestUnits(amount, currency) === null)
      say('amount', `${currency} has ${decimalsOf(currency)} decimals: give no more.`);
  })
  .transform(({ amount, ...rest }) => ({
    ...rest,
    amount: amount === null ? null : smallestUnits(amount, rest.currency ?? ''),
  }));

interface PriceFormProps {
  fishId: string;
  /** One's own, to be corrected; absent for a new one. */
  deal?: FishDeal;
  /** That of the price before, offered again. */
  currency?: string | null;
  onDone: () => void;
}

const atFirst = (deal: FishDeal | undefined, currency: string | null) => ({
  kind: deal?.kind ?? ('BOUGHT' as const),
  onDate: deal?.onDate ?? today(),
  amount:
    deal?.amount == null || deal.currency === null ? '' : amountText(deal.amount, deal.currency),
  currency: deal === undefined ? (currency ?? '') : (deal.currency ?? ''),
  withWhom: deal?.withWhom ?? '',
  note: deal?.note ?? '',
});

/** What was paid, asked or got for a fish. */
export function PriceForm({ fishId, deal, currency = null, onDone }: PriceFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: atFirst(deal, currency),
  });
  const [id] = useState(newId);
  const adding = useSave(RECORD_FISH_DEAL);
  const correcting = useSave(CORRECT_FISH_DEAL);
  const { saving, problem } = deal === undefined ? adding : correcting;
  return (
    <RecordForm
      form={form}
      submit={deal === undefined ? 'Save price' : 'Save correction'}
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (values) => {
        const saved =
          deal === undefined
            ? await adding.save({ input: { id, fishId, ...values } })
            : await correcting.save({ input: { id: deal.id, revision: deal.revision, ...values } });
        if (saved !== null) onDone();
      }}
    >
      <PriceFields />
    </RecordForm>
  );
}

function PriceFields() {
  return (
    <>
      <FieldRow>
        <ChoiceField
          name="kind"
          label="What"
          choices={Object.entries(DEAL_WORDS).map(([value, label]) => ({ value, label }))}
        />
        <DateField name="onDate" label="Day" required />
      </FieldRow>
      <FieldRow>
        <NumberField name="amount" label="Amount" hint="Blank when nothing was paid." />
        <ChoiceField
          name="currency"
          label="Currency"
          choices={[
            { value: '', label: 'none' },
            ...currencies().map(({ code, name }) => ({ value: code, label: `${code} · ${name}` })),
          ]}
        />
      </FieldRow>
      <TextField name="withWhom" label="From whom or to whom" />
      <TextField name="note" label="Note" />
    </>
  );
}
