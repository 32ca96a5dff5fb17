import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { DECLINE_FISH, type HandOver, TAKE_BACK_OFFERS } from '../../api/hand-overs.js';
import { useSave } from '../../api/use-save.js';
import { optionalText } from '../../components/field-rules.js';
import { LongTextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';

const schema = z.object({ word: optionalText });

interface WordFormProps {
  handOvers: readonly HandOver[];
  onDone: () => void;
}

const useWordForm = () => useForm({ resolver: zodResolver(schema), defaultValues: { word: '' } });

/** Declines offered fish, with a word to the giver. */
export function DeclineForm({ handOvers, onDone }: WordFormProps) {
  const form = useWordForm();
  const { save, saving, problem } = useSave(DECLINE_FISH);
  return (
    <RecordForm
      form={form}
      submit="Decline"
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async ({ word }) => {
        if ((await save({ ids: handOvers.map(({ id }) => id), word })) !== null) onDone();
      }}
    >
      <LongTextField name="word" label="A word to the giver" />
    </RecordForm>
  );
}

/** Takes an offer back that nobody has answered. */
export function TakeBackForm({ handOvers, onDone }: WordFormProps) {
  const form = useWordForm();
  const { save, saving, problem } = useSave(TAKE_BACK_OFFERS);
  return (
    <RecordForm
      form={form}
      submit="Take the offer back"
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async ({ word }) => {
        if ((await save({ ids: handOvers.map(({ id }) => id), reason: word })) !== null) onDone();
      }}
    >
      <LongTextField name="word" label="Why" hint="The other side reads it." />
    </RecordForm>
  );
}
