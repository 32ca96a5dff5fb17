import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { useNavigate } from 'react-router';
import { z } from 'zod';
import { RECORD_PAIRING_SPAWN, type PairingRow } from '../../api/pairings.js';
import { useSave } from '../../api/use-save.js';
import {
  optionalDate,
  optionalId,
  optionalText,
  requiredText,
} from '../../components/field-rules.js';
import { DateField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { LineField } from '../../pickers/line-field.js';
import { useOfferedTag } from '../../pickers/use-offered-tag.js';
import { OtherBroodField } from '../spawn/other-brood-field.js';

const schema = z.object({
  tag: requiredText('Give the spawn a tag, such as T24-07.'),
  lineId: optionalId,
  spawnedOn: optionalDate,
  note: optionalText,
  confirmed: z.boolean(),
});

interface PairingSpawnFormProps {
  pairing: PairingRow;
  onCancel: () => void;
}

export function PairingSpawnForm({ pairing, onCancel }: PairingSpawnFormProps) {
  const navigate = useNavigate();
  const { sire, dam } = pairing;
  const sharedLine = sire.line !== null && sire.line.id === dam.line?.id ? sire.line.id : '';
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { tag: '', lineId: sharedLine, spawnedOn: '', note: '', confirmed: false },
  });
  const { save, saving, problem } = useSave(RECORD_PAIRING_SPAWN);
  return (
    <RecordForm
      form={form}
      submit="Record spawn"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (values) => {
        const saved = await save({ input: { pairingId: pairing.id, ...values } });
        if (saved !== null) void navigate(`/spawns/${saved.recordPairingSpawn.id}`);
      }}
    >
      <PairingSpawnFields />
      <OtherBroodField problem={problem} />
    </RecordForm>
  );
}

function PairingSpawnFields() {
  useOfferedTag('SPAWN');
  return (
    <>
      <FieldRow>
        <TextField name="tag" label="Tag of the spawn" required autoFocus />
        <LineField />
        <DateField
          name="spawnedOn"
          label="Spawned on"
          hint="Blank while the pair is only being set up: its log begins now."
        />
      </FieldRow>
      <TextField name="note" label="Note" />
    </>
  );
}
