import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import type { z } from 'zod';
import { CORRECT_SPAWN, SPAWN, type SpawnFacts } from '../../api/spawns.js';
import { useCorrection } from '../../api/use-correction.js';
import { chosenIn, conflictsBetween } from '../../components/conflicts-between.js';
import { CorrectionForm } from '../../components/correction-form.js';
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
  const correction = useCorrection({
    record: spawn,
    mutation: CORRECT_SPAWN,
    query: SPAWN,
    factsIn: (found) => found.spawn,
  });
  const { opened } = correction;
  const form = useForm({ resolver: zodResolver(spawnSchema), defaultValues: valuesOf(opened) });
  return (
    <CorrectionForm
      {...{ form, correction, onSaved, onCancel }}
      sent={(values, revision) => ({ input: { id: opened.id, revision, ...values } })}
      conflictsWith={(recorded) =>
        conflictsBetween(spawnFieldNames, form.getValues(), valuesOf(recorded), chosenIn(recorded))
      }
    >
      <SpawnFields />
      <OtherBroodField problem={correction.problem} />
      <p className="lw-quiet">A change of sire or dam changes the F of every fish of this spawn.</p>
    </CorrectionForm>
  );
}
