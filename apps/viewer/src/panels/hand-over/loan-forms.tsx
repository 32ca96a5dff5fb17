import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { END_LOAN, type HandOver, PUT_OFF_LOAN, SAY_LOAN_RETURNED } from '../../api/hand-overs.js';
import { useSave } from '../../api/use-save.js';
import { optionalText, requiredDate } from '../../components/field-rules.js';
import { ChoiceField, DateField, LongTextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';
import { QuarantineCaution } from './accept-form.js';

interface LoanFormProps {
  handOver: HandOver;
  onDone: () => void;
}

const schema = z.object({
  as: z.enum(['CAME_BACK', 'DIED']),
  on: requiredDate,
  word: optionalText,
});

/** How a loan ends: by the borrower's word, or by the lender's, which ends it. */
export function LoanReturnForm({ handOver, onDone }: LoanFormProps) {
  const ends = handOver.side === 'GIVER';
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      as: handOver.returnAs ?? ('CAME_BACK' as const),
      on: handOver.returnSaidOn ?? today(),
      word: '',
    },
  });
  const saying = useSave(SAY_LOAN_RETURNED);
  const ending = useSave(END_LOAN);
  const { saving, problem } = ends ? ending : saying;
  return (
    <RecordForm
      form={form}
      submit={ends ? 'End the loan' : `Tell ${handOver.from.name}`}
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (said) => {
        const input = { id: handOver.id, ...said };
        const saved = ends ? await ending.save({ input }) : await saying.save({ input });
        if (saved !== null) onDone();
      }}
    >
      <ChoiceField
        name="as"
        label="What became of it"
        choices={[
          { value: 'CAME_BACK', label: ends ? 'it is back here' : 'it goes back' },
          { value: 'DIED', label: 'it died' },
        ]}
      />
      <DateField name="on" label="Date" required />
      <LongTextField name="word" label="A word about it" />
      {ends && <QuarantineCaution />}
    </RecordForm>
  );
}

const putOffSchema = z.object({ backOn: requiredDate });

/** Another day on which a lent fish is to be back. */
export function PutOffForm({ handOver, onDone }: LoanFormProps) {
  const form = useForm({
    resolver: zodResolver(putOffSchema),
    defaultValues: { backOn: handOver.backOn ?? '' },
  });
  const { save, saving, problem } = useSave(PUT_OFF_LOAN);
  return (
    <RecordForm
      form={form}
      submit="Save the day"
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async ({ backOn }) => {
        if ((await save({ id: handOver.id, backOn })) !== null) onDone();
      }}
    >
      <DateField name="backOn" label="To be back on" required />
    </RecordForm>
  );
}
