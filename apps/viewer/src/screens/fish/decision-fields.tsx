import { useWatch } from 'react-hook-form';
import { z } from 'zod';
import { optionalText, requiredDate } from '../../components/field-rules.js';
import { ChoiceField, DateField, TextField } from '../../components/fields.js';
import { CullCaution, PlacingCaution } from './decision-cautions.js';

/** What is asked of every decision, about one fish or several. */
export const decisionShape = {
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

const decisions = [
  { value: 'KEEPER', label: 'keep: keeper' },
  { value: 'HOLD', label: 'hold: look again later' },
  { value: 'CULLED', label: 'cull' },
  { value: 'PLACED', label: 'place: gave or sold it' },
  { value: 'DIED', label: 'died' },
  { value: 'ELSEWHERE', label: 'ancestor only: known as a parent, lived elsewhere' },
  { value: 'UNSORTED', label: 'unsorted' },
];

interface DecisionFieldProps {
  label: string;
  onChosen?: (disposition: string) => void;
}

export function DecisionField(props: DecisionFieldProps) {
  return <ChoiceField name="disposition" choices={decisions} required {...props} />;
}

export function DecisionDateField() {
  return <DateField name="on" label="Date" required />;
}

/** The reason, and what is to be thought of before a fish is culled or given away. */
export function DecisionReason() {
  const disposition: unknown = useWatch({ name: 'disposition' });
  return (
    <>
      <TextField
        name="reason"
        label="Reason"
        hint="Such as: bent ventrals, best spread of the spawn."
      />
      {disposition === 'CULLED' && <CullCaution />}
      {disposition === 'PLACED' && <PlacingCaution />}
    </>
  );
}
