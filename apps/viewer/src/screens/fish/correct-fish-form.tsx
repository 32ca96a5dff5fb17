import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import type { z } from 'zod';
import { CORRECT_FISH, FISH_FACTS, type FishFacts } from '../../api/fish.js';
import { useCorrection } from '../../api/use-correction.js';
import { chosenIn, conflictsBetween } from '../../components/conflicts-between.js';
import { CorrectionForm } from '../../components/correction-form.js';
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

/** Corrects a fish's own facts. */
export function CorrectFishForm({ fish, onSaved, onCancel }: CorrectFishFormProps) {
  const correction = useCorrection({
    record: fish,
    mutation: CORRECT_FISH,
    query: FISH_FACTS,
    factsIn: (found) => found.fish,
  });
  const { opened } = correction;
  const form = useForm({ resolver: zodResolver(fishSchema), defaultValues: valuesOf(opened) });
  return (
    <CorrectionForm
      {...{ form, correction, onSaved, onCancel }}
      sent={({ sireId, damId, ...own }, revision) => {
        const parents = opened.spawn === null ? { sireId, damId } : {};
        return { input: { id: opened.id, revision, ...own, ...parents } };
      }}
      conflictsWith={(recorded) =>
        conflictsBetween(fishFieldNames, form.getValues(), valuesOf(recorded), chosenIn(recorded))
      }
    >
      <FishFields parentsFromSpawn={opened.spawn?.tag ?? null} />
    </CorrectionForm>
  );
}
