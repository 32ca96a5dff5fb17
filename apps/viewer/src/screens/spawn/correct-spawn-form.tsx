import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { useClient } from 'urql';
import type { z } from 'zod';
import { CORRECT_SPAWN, SPAWN, type SpawnFacts } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { ConflictNotice, type FieldConflict } from '../../components/conflict-notice.js';
import { RecordForm } from '../../components/record-form.js';
import { OtherBroodField } from './other-brood-field.js';
import { SpawnFields, spawnFieldNames, spawnSchema } from './spawn-fields.js';

type Values = z.input<typeof spawnSchema>;

function valuesOf(spawn: SpawnFacts): Values {
  return {
    tag: spawn.tag,
    lineId: spawn.line?.id ?? '',
    sireId: spawn.sire?.id ?? '',
    damId: spawn.dam?.id ?? '',
    spawnedOn: spawn.spawnedOn ?? '',
    hatchDate: spawn.hatchDate ?? '',
    purpose: spawn.purpose ?? '',
    note: spawn.note ?? '',
    confirmed: false,
  };
}

interface CorrectSpawnFormProps {
  spawn: SpawnFacts;
  onSaved: () => void;
  onCancel: () => void;
}

export function CorrectSpawnForm({ spawn, onSaved, onCancel }: CorrectSpawnFormProps) {
  const client = useClient();
  const [opened] = useState(spawn);
  const [saved, setSaved] = useState<SpawnFacts | null>(null);
  const form = useForm({ resolver: zodResolver(spawnSchema), defaultValues: valuesOf(opened) });
  const correction = useSave(CORRECT_SPAWN);
  const conflict = correction.problem?.code === 'CONFLICT_REVISION';

  const submit = (revision: number) => async (values: z.output<typeof spawnSchema>) => {
    if ((await correction.save({ input: { id: opened.id, revision, ...values } })) !== null) {
      onSaved();
      return;
    }
    const now = await client
      .query(SPAWN, { id: opened.id }, { requestPolicy: 'network-only' })
      .toPromise();
    setSaved(now.data?.spawn ?? null);
  };

  return (
    <RecordForm
      form={form}
      submit="Save correction"
      saving={correction.saving}
      problem={conflict && saved !== null ? null : correction.problem}
      onCancel={onCancel}
      onSubmit={submit(opened.revision)}
    >
      <SpawnFields />
      <OtherBroodField problem={correction.problem} />
      <p className="lw-quiet">A change of sire or dam changes the F of every fish of this spawn.</p>
      {conflict && saved !== null && (
        <ConflictNotice
          conflicts={conflictsBetween(form.getValues(), saved)}
          onKeepMine={() => void form.handleSubmit(submit(saved.revision))()}
          onTakeSaved={onSaved}
        />
      )}
    </RecordForm>
  );
}

function conflictsBetween(mine: Values, saved: SpawnFacts): FieldConflict[] {
  const theirs = valuesOf(saved);
  const shown: Partial<Record<keyof Values, string>> = {
    lineId: saved.line?.code ?? '',
    sireId: saved.sire?.tag ?? '',
    damId: saved.dam?.tag ?? '',
  };
  return (Object.keys(spawnFieldNames) as (keyof typeof spawnFieldNames)[])
    .filter((field) => mine[field] !== theirs[field])
    .map((field) => ({
      field: spawnFieldNames[field],
      mine: field in shown && mine[field] !== '' ? 'your choice in the form' : mine[field],
      saved: shown[field] ?? theirs[field],
    }));
}
