import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { CREATE_FISH } from '../../api/fish.js';
import { useSave } from '../../api/use-save.js';
import { given } from '../../components/field-rules.js';
import { ChoiceField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { z } from 'zod';
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
  return (
    <RecordForm
      form={form}
      submit="Save fish"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ tag, sex, disposition, ...rest }) => {
        const saved = await save({ input: { tag, sex, disposition, ...given(rest) } });
        if (saved !== null) onSaved(saved.createFish.id);
      }}
    >
      <FishFields />
      <FirstDecision />
    </RecordForm>
  );
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
