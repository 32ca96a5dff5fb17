import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { DECIDE_FISH, type FishFacts } from '../../api/fish.js';
import { PEOPLE } from '../../api/people.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { optionalId } from '../../components/field-rules.js';
import { ChoiceField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';
import {
  CULL_WITHOUT_REASON,
  cullHasReason,
  DecisionDateField,
  DecisionField,
  DecisionReason,
  decisionShape,
} from './decision-fields.js';
import { placeAfter } from './place-after.js';

const schema = z
  .object({ ...decisionShape, swimsWithId: optionalId })
  .refine(cullHasReason, CULL_WITHOUT_REASON);

interface DecideFormProps {
  fish: FishFacts;
  onSaved: () => void;
  onCancel: () => void;
}

export function DecideForm({ fish, onSaved, onCancel }: DecideFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      disposition: fish.disposition === 'UNSORTED' ? ('KEEPER' as const) : fish.disposition,
      on: today(),
      reason: '',
      swimsWithId: fish.swimsWith?.id ?? '',
    },
  });
  const people = useRead(PEOPLE, {}).data?.people ?? [];
  const owner = people.find(({ here }) => here)?.id ?? '';
  const { save, saving, problem } = useSave(DECIDE_FISH);
  return (
    <RecordForm
      form={form}
      submit="Save decision"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ disposition: decided, ...given }) => {
        const input = { id: fish.id, disposition: decided, ...given, revision: fish.revision };
        if ((await save({ input })) !== null) onSaved();
      }}
    >
      {/* Each on a line of its own: on a phone half a line cuts the choices short. */}
      <DecisionField
        label="Decision"
        onChosen={(decided) => {
          const now = form.getValues('swimsWithId');
          const after = placeAfter(decided, now, owner);
          if (after !== now) form.setValue('swimsWithId', after);
        }}
      />
      <PlaceField people={people} />
      <DecisionDateField />
      <DecisionReason />
    </RecordForm>
  );
}

interface PlaceFieldProps {
  people: readonly { readonly id: string; readonly name: string; readonly here: boolean }[];
}

function PlaceField({ people }: PlaceFieldProps) {
  return (
    <ChoiceField
      name="swimsWithId"
      label="Where it swims"
      choices={[
        ...people.map(({ id, name, here }) => ({
          value: id,
          label: here ? 'here' : `with ${name}`,
        })),
        { value: '', label: 'not known, or with someone not on record' },
      ]}
    />
  );
}
