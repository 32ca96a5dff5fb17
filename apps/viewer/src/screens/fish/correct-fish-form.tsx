import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { useClient } from 'urql';
import type { z } from 'zod';
import { CORRECT_FISH, FISH_FACTS, type FishFacts } from '../../api/fish.js';
import { useSave } from '../../api/use-save.js';
import { ConflictNotice, type FieldConflict } from '../../components/conflict-notice.js';
import { RecordForm } from '../../components/record-form.js';
import { FishFields, fishFieldNames, fishSchema } from './fish-fields.js';

type Values = z.input<typeof fishSchema>;

function valuesOf(fish: FishFacts): Values {
  return {
    tag: fish.tag,
    name: fish.name ?? '',
    sex: fish.sex,
    hatchDate: fish.hatchDate ?? '',
    lineId: fish.line?.id ?? '',
    sireId: fish.sire?.id ?? '',
    damId: fish.dam?.id ?? '',
    origin: fish.origin ?? '',
    note: fish.note ?? '',
  };
}

interface CorrectFishFormProps {
  fish: FishFacts;
  onSaved: () => void;
  onCancel: () => void;
}

/** Corrects a fish's own facts; when it was changed meanwhile, shows both versions. */
export function CorrectFishForm({ fish, onSaved, onCancel }: CorrectFishFormProps) {
  const client = useClient();
  // The revision the form was opened at: later answers of the API must not move it.
  const [opened] = useState(fish);
  const [saved, setSaved] = useState<FishFacts | null>(null);
  const form = useForm({ resolver: zodResolver(fishSchema), defaultValues: valuesOf(opened) });
  const correction = useSave(CORRECT_FISH);
  const conflict = correction.problem?.code === 'CONFLICT_REVISION';

  const submit = (revision: number) => async (values: z.output<typeof fishSchema>) => {
    const { sireId, damId, ...own } = values;
    const parents = opened.spawn === null ? { sireId, damId } : {};
    const input = { id: opened.id, revision, ...own, ...parents };
    if ((await correction.save({ input })) !== null) {
      onSaved();
      return;
    }
    const now = await client
      .query(FISH_FACTS, { id: opened.id }, { requestPolicy: 'network-only' })
      .toPromise();
    setSaved(now.data?.fish ?? null);
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
      <FishFields parentsFromSpawn={opened.spawn?.tag ?? null} />
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

function conflictsBetween(mine: Values, saved: FishFacts): FieldConflict[] {
  const theirs = valuesOf(saved);
  const shown: Partial<Record<keyof Values, string>> = {
    lineId: saved.line?.code ?? '',
    sireId: saved.sire?.tag ?? '',
    damId: saved.dam?.tag ?? '',
  };
  return (Object.keys(fishFieldNames) as (keyof Values)[])
    .filter((field) => mine[field] !== theirs[field])
    .map((field) => ({
      field: fishFieldNames[field],
      mine: field in shown && mine[field] !== '' ? 'your choice in the form' : mine[field],
      saved: shown[field] ?? theirs[field],
    }));
}
