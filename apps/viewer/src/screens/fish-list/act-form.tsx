import { zodResolver } from '@hookform/resolvers/zod';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import type { FishActInput } from '../../api/fish-acts.js';
import type { Problem } from '../../api/problem.js';
import { optionalId, requiredText } from '../../components/field-rules.js';
import { ChoiceField, DateField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { LineField } from '../../pickers/line-field.js';
import { today } from '../../wording/figures.js';
import {
  CULL_WITHOUT_REASON,
  CullCaution,
  cullHasReason,
  decisionFields,
  decisions,
  PlacingCaution,
} from '../fish/decide-form.js';
import type { ActKind } from './act-kind.js';

export interface ActFormProps {
  onLook: (act: FishActInput) => unknown;
  onCancel: () => void;
  asking: boolean;
  problem: Problem | null;
}

const shared = ({ onCancel, asking, problem }: ActFormProps) => ({
  submit: 'Show what changes',
  saving: asking,
  problem,
  onCancel,
});

const lineSchema = z.object({ lineId: optionalId });

function LineForm(props: ActFormProps) {
  const form = useForm({ resolver: zodResolver(lineSchema), defaultValues: { lineId: '' } });
  return (
    <RecordForm form={form} {...shared(props)} onSubmit={(line) => props.onLook({ line })}>
      <LineField label="Line for all of them" />
    </RecordForm>
  );
}

const decisionSchema = z.object(decisionFields).refine(cullHasReason, CULL_WITHOUT_REASON);

function DecisionForm(props: ActFormProps) {
  const form = useForm({
    resolver: zodResolver(decisionSchema),
    defaultValues: { disposition: 'KEEPER' as const, on: today(), reason: '' },
  });
  const disposition: string = useWatch({ control: form.control, name: 'disposition' });
  return (
    <RecordForm form={form} {...shared(props)} onSubmit={(decision) => props.onLook({ decision })}>
      <FieldRow>
        <ChoiceField
          name="disposition"
          label="Decision for all of them"
          choices={decisions}
          required
        />
        <DateField name="on" label="Date" required />
      </FieldRow>
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

const withdrawalSchema = z.object({
  reason: requiredText('Say why, so that the history can be understood later.'),
});

function WithdrawalForm(props: ActFormProps) {
  const form = useForm({ resolver: zodResolver(withdrawalSchema), defaultValues: { reason: '' } });
  return (
    <RecordForm
      form={form}
      {...shared(props)}
      onSubmit={(withdrawal) => props.onLook({ withdrawal })}
    >
      <p>
        Withdraw records that should not be there, such as fish entered twice. They leave the lists
        but stay in the history with your reason. For fish that died, were culled or placed, use
        “Decide” instead.
      </p>
      <TextField name="reason" label="Reason" required autoFocus />
    </RecordForm>
  );
}

/** What is to be done for all chosen fish. */
export const actForms: Record<ActKind, (props: ActFormProps) => React.ReactNode> = {
  line: LineForm,
  decision: DecisionForm,
  withdrawal: WithdrawalForm,
};
