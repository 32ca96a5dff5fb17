import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { ANSWER_CLUB_REQUEST, type ClubRequest } from '../api/club.js';
import { useSave } from '../api/use-save.js';
import { optionalText } from '../components/field-rules.js';
import { ChoiceField, LongTextField } from '../components/fields.js';
import { RecordForm } from '../components/record-form.js';
import { WHAT_ASKED } from '../wording/club-words.js';

const schema = z.object({ answer: z.enum(['yes', 'no']), words: optionalText });

/** Yes or no to what somebody asked, with a word. */
export function AnswerRequestForm({
  request,
  onDone,
}: {
  request: ClubRequest;
  onDone: () => void;
}) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { answer: 'yes' as const, words: '' },
  });
  const { save, saving, problem } = useSave(ANSWER_CLUB_REQUEST);
  return (
    <RecordForm
      form={form}
      submit="Send the answer"
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async ({ answer, words }) => {
        const input = { requestId: request.id, yes: answer === 'yes', words };
        if ((await save({ input })) !== null) onDone();
      }}
    >
      <p className="lw-words">
        {WHAT_ASKED[request.what]}, line {request.lineName}: “{request.words}”
      </p>
      <ChoiceField
        name="answer"
        label="Your answer"
        choices={[
          { value: 'yes', label: 'Yes' },
          { value: 'no', label: 'No' },
        ]}
      />
      <LongTextField name="words" label="A word with it" hint="When, where, or why not." />
    </RecordForm>
  );
}
