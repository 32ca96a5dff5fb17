import { Button } from '@mantine/core';
import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CORRECT_FISH, type FishFacts } from '../../api/fish.js';
import { RECORD_SIBS } from '../../api/spawns.js';
import { useSave } from '../../api/use-save.js';
import { requiredText } from '../../components/field-rules.js';
import { TextField } from '../../components/fields.js';
import { ProblemNotice } from '../../components/notice.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { FishField } from '../../pickers/fish-picker.js';
import { useMayChange } from '../../session/may.js';
import { INBREEDING_MARKS } from '../../wording/inbreeding-words.js';

/** Why an F is not wholly known, and what the person can say about it. */
export function UnknownOrigin({ fish }: { fish: FishFacts }) {
  const mayChange = useMayChange();
  const ownParentUnknown = fish.sire === null || fish.dam === null;
  const { declaredUnrelated, inbreedingNote } = fish;
  if (inbreedingNote === null && !declaredUnrelated) return null;
  return (
    <>
      {inbreedingNote !== null && (
        <p className="lw-words">
          {inbreedingNote} <span className="lw-quiet">{INBREEDING_MARKS}</span>
        </p>
      )}
      {declaredUnrelated && (
        <p className="lw-words">Recorded as unrelated to the other fish, by what you know.</p>
      )}
      {mayChange && ownParentUnknown && <DeclareUnrelated fish={fish} />}
      {mayChange && fish.spawn === null && <SibForm fish={fish} />}
    </>
  );
}

function DeclareUnrelated({ fish: { id, revision, declaredUnrelated } }: { fish: FishFacts }) {
  const { save, saving, problem } = useSave(CORRECT_FISH);
  const input = { id, revision, declaredUnrelated: !declaredUnrelated };
  return (
    <>
      <ProblemNotice problem={problem} />
      <Button loading={saving} onClick={() => void save({ input })}>
        {declaredUnrelated
          ? 'It may be related after all'
          : 'Its unknown parents are unrelated to my other fish'}
      </Button>
    </>
  );
}

const sibSchema = z.object({
  sibId: requiredText('Choose a sib.'),
  tag: requiredText('Give the spawn they came from a tag.'),
});

function SibForm({ fish }: { fish: FishFacts }) {
  const { save, saving, problem } = useSave(RECORD_SIBS);
  const form = useForm({
    resolver: zodResolver(sibSchema),
    defaultValues: { sibId: '', tag: `${fish.tag} sibs` },
  });
  return (
    <details className="lw-folded">
      <summary>It has a full sib here, parents unknown</summary>
      <RecordForm
        form={form}
        submit="Record as full sibs"
        saving={saving}
        problem={problem}
        onCancel={() => form.reset()}
        onSubmit={async ({ sibId, tag }) => {
          await save({ fishIds: [fish.id, sibId], tag });
        }}
      >
        <FieldRow>
          <FishField name="sibId" label="Full sib" hint="Of the same brood." />
          <TextField name="tag" label="Tag of their spawn" hint="Used when the sib has none yet." />
        </FieldRow>
      </RecordForm>
    </details>
  );
}
