import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { CREATE_SPAWN } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { given } from '../../components/field-rules.js';
import { RecordForm } from '../../components/record-form.js';
import { useOfferedTag } from '../../pickers/use-offered-tag.js';
import { today } from '../../wording/figures.js';
import { OtherBroodField } from '../spawn/other-brood-field.js';
import { SpawnFields, spawnSchema } from '../spawn/spawn-fields.js';

interface NewSpawnFormProps {
  onSaved: (id: string) => void;
  onCancel: () => void;
}

export function NewSpawnForm({ onSaved, onCancel }: NewSpawnFormProps) {
  const form = useForm({
    resolver: zodResolver(spawnSchema),
    defaultValues: {
      tag: '',
      lineId: '',
      sireId: '',
      damId: '',
      spawnedOn: today(),
      hatchDate: '',
      purpose: '',
      note: '',
      confirmed: false,
    },
  });
  const { save, saving, problem } = useSave(CREATE_SPAWN);
  return (
    <RecordForm
      form={form}
      submit="Save spawn"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ tag, ...rest }) => {
        const saved = await save({ input: { tag, ...given(rest) } });
        if (saved !== null) onSaved(saved.createSpawn.id);
      }}
    >
      <NewSpawnFields />
      <OtherBroodField problem={problem} />
    </RecordForm>
  );
}

function NewSpawnFields() {
  useOfferedTag('SPAWN');
  return <SpawnFields />;
}
