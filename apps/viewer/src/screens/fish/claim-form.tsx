import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CLAIM_FISH } from '../../api/fish-claims.js';
import { useSave } from '../../api/use-save.js';
import { optionalText } from '../../components/field-rules.js';
import { LongTextField, TextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';

const schema = z.object({ asTag: optionalText, word: optionalText });

interface ClaimFormProps {
  fish: { readonly id: string; readonly tag: string; readonly person: { readonly name: string } };
  onDone: () => void;
}

/** "This fish is mine", of one of which somebody else recorded only the tag. */
export function ClaimForm({ fish, onDone }: ClaimFormProps) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: { asTag: '', word: '' } });
  const { save, saving, problem } = useSave(CLAIM_FISH);
  return (
    <RecordForm
      form={form}
      submit={`Tell ${fish.person.name}`}
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (said) => {
        if ((await save({ input: { fishId: fish.id, ...said } })) !== null) onDone();
      }}
    >
      <p>
        {fish.person.name} has only the tag of {fish.tag} on record, as somebody’s parent. Once they
        confirm that it is yours, both records are one.
      </p>
      <TextField
        name="asTag"
        label="Its tag in your records"
        hint="Blank: you have no record of it, and theirs becomes yours."
      />
      <LongTextField name="word" label="A word to them" />
    </RecordForm>
  );
}
