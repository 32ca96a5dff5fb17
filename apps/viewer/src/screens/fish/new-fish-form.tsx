import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { CREATE_FISH } from '../../api/fish.js';
import { useSave } from '../../api/use-save.js';
import { given } from '../../components/field-rules.js';
import { ChoiceField } from '../../components/fields.js';
import { Done } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { z } from 'zod';
import { useOfferedTag } from '../../pickers/use-offered-tag.js';
import { FishFields, fishSchema } from './fish-fields.js';

const schema = fishSchema.extend({ disposition: z.enum(['KEEPER', 'HOLD', 'UNSORTED']) });

interface NewFishFormProps {
  onSaved: (id: string) => void;
  onCancel: () => void;
}

export function NewFishForm({ onSaved, onCancel }: NewFishFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ tag: '', name: '', sex: 'UNSEXED' as const, hatchDate: '', lineId: '' },
      ...{ sireId: '', damId: '', origin: '', note: '', disposition: 'KEEPER' as const },
    },
  });
  const { save, saving, problem } = useSave(CREATE_FISH);
  const [saved, setSaved] = useState<string | null>(null);
  return (
    <RecordForm
      form={form}
      submit="Save fish"
      submitAnother="Save and add another"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ tag, sex, disposition, ...rest }, another) => {
        const made = await save({ input: { tag, sex, disposition, ...given(rest) } });
        if (made === null) return;
        if (!another) {
          onSaved(made.createFish.id);
          return;
        }
        setSaved(made.createFish.tag);
        // What brothers and sisters share stays; what is one fish's own begins anew.
        form.reset({ ...form.getValues(), tag: '', name: '', note: '', sex: 'UNSEXED' });
        // Once the buttons are free again: a field takes the focus only after them.
        setTimeout(() => form.setFocus('tag', { shouldSelect: true }));
      }}
    >
      {saved !== null && (
        <Done>{saved} is saved. Line, parents, day and origin stay for the next.</Done>
      )}
      <NewFishFields />
      <FirstDecision />
    </RecordForm>
  );
}

function NewFishFields() {
  useOfferedTag('FISH');
  return <FishFields />;
}

function FirstDecision() {
  return (
    <ChoiceField
      name="disposition"
      label="Decision"
      choices={[
        { value: 'KEEPER', label: 'keeper' },
        { value: 'HOLD', label: 'hold' },
        { value: 'UNSORTED', label: 'unsorted' },
      ]}
    />
  );
}
