import { zodResolver } from '@hookform/resolvers/zod';
import { useForm, useWatch } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import { DECIDE_FISH, type FishFacts } from '../../api/fish.js';
import { PEOPLE } from '../../api/session.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { optionalId, optionalText, requiredDate } from '../../components/field-rules.js';
import { ChoiceField, DateField, TextField } from '../../components/fields.js';
import { Caution } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';

/** What is asked of every decision, about one fish or several. */
export const decisionFields = {
  disposition: z.enum(['KEEPER', 'HOLD', 'CULLED', 'PLACED', 'DIED', 'ELSEWHERE', 'UNSORTED']),
  on: requiredDate,
  reason: optionalText,
};

export const cullHasReason = (given: { disposition: string; reason: string | null }): boolean =>
  given.disposition !== 'CULLED' || given.reason !== null;

export const CULL_WITHOUT_REASON = {
  path: ['reason'],
  message: 'Give the reason for the cull: it is used to judge the line later.',
};

const schema = z
  .object({ ...decisionFields, swimsWithId: optionalId })
  .refine(cullHasReason, CULL_WITHOUT_REASON);

export const decisions = [
  { value: 'KEEPER', label: 'keep: keeper' },
  { value: 'HOLD', label: 'hold: look again later' },
  { value: 'CULLED', label: 'cull' },
  { value: 'PLACED', label: 'place: gave or sold it' },
  { value: 'DIED', label: 'died' },
  { value: 'ELSEWHERE', label: 'ancestor only: known as a parent, lived elsewhere' },
  { value: 'UNSORTED', label: 'unsorted' },
];

/** Shown wherever a cull is recorded. */
export function CullCaution() {
  return (
    <Caution>
      Placing a sound fish as a pet, or keeping it apart, is also a cull from the line. Where a fish
      must be killed, ask a vet how it is done humanely and what your local law asks; wear gloves
      with a sick one. Never release a fish, and never keep two fighting fish in one jar.{' '}
      <Link to="/cautions">All cautions</Link>
    </Caution>
  );
}

/** Shown wherever it is recorded that fish go to somebody else. */
export function PlacingCaution() {
  return (
    <Caution>
      The law of your place says who may sell fish, give them away or send them, and how: ask your
      authority first. Never release a fish, and tell the new owner that fighting fish have to be
      kept apart. <Link to="/cautions">All cautions</Link>
    </Caution>
  );
}

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
  const disposition = useWatch({ control: form.control, name: 'disposition' });
  const people = useRead(PEOPLE, {}).data?.people ?? [];
  const owner = people.find(({ here }) => here)?.id;
  // A fish that is placed leaves; one that is taken back is here again.
  const placeFollows = (decided: string): void => {
    const place = form.getValues('swimsWithId');
    if (decided === 'ELSEWHERE' || (decided === 'PLACED' && place === owner))
      form.setValue('swimsWithId', '');
    else if (decided !== 'PLACED' && place === '') form.setValue('swimsWithId', owner ?? '');
  };
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
      <ChoiceField
        name="disposition"
        label="Decision"
        choices={decisions}
        required
        onChosen={placeFollows}
      />
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
      <DateField name="on" label="Date" required />
      <TextField
        name="reason"
        label="Reason"
        hint="Such as: bent ventrals, best spread of the spawn."
      />
      {disposition === 'CULLED' && <CullCaution />}
      {disposition === 'PLACED' && <PlacingCaution />}
    </RecordForm>
  );
}
