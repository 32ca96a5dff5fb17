import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { ASK_CLUB } from '../../api/club.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { ChoiceField, LongTextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { WHAT_ASKED } from '../../wording/club-words.js';

const schema = z.object({
  what: z.enum(['FISH', 'LOAN', 'STUD']),
  words: requiredText('Say in a word or two what you would like.'),
});

/** Asks the keeper of a shown line for a fish, a loan or a stud. */
export function AskForm({ lineId, onDone }: { lineId: string; onDone: () => void }) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { what: 'FISH' as const, words: '' },
  });
  const { save, saving, problem } = useSave(ASK_CLUB);
  return (
    <RecordForm
      form={form}
      submit="Send"
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (values) => {
        if ((await save({ input: { lineId, ...values } })) !== null) onDone();
      }}
    >
      <ChoiceField
        name="what"
        label="What you would like"
        choices={Object.entries(WHAT_ASKED).map(([value, label]) => ({ value, label }))}
      />
      <LongTextField
        name="words"
        label="In your words"
        hint="They see it with your name, and answer here."
        required
      />
    </RecordForm>
  );
}
