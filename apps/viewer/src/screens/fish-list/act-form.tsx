import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import type { FishActInput } from '../../api/fish-acts.js';
import type { Problem } from '../../api/problem.js';
import { optionalId } from '../../components/field-rules.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { ReasonForm } from '../../components/withdraw-form.js';
import { LineField } from '../../pickers/line-field.js';
import { today } from '../../wording/figures.js';
import {
  CULL_WITHOUT_REASON,
  cullHasReason,
  DecisionDateField,
  DecisionField,
  DecisionReason,
  decisionShape,
} from '../fish/decision-fields.js';
import type { ActKind } from './act-kind.js';

export interface ActFormProps {
  onLook: (act: FishActInput) => unknown;
  onCancel: () => void;
  asking: boolean;
  problem: Problem | null;
}

const shared = ({ onCancel, asking, problem }: Omit<ActFormProps, 'onLook'>) => ({
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

const decisionSchema = z.object(decisionShape).refine(cullHasReason, CULL_WITHOUT_REASON);

function DecisionForm(props: ActFormProps) {
  const form = useForm({
    resolver: zodResolver(decisionSchema),
    defaultValues: { disposition: 'KEEPER' as const, on: today(), reason: '' },
  });
  return (
    <RecordForm form={form} {...shared(props)} onSubmit={(decision) => props.onLook({ decision })}>
      <FieldRow>
        <DecisionField label="Decision for all of them" />
        <DecisionDateField />
      </FieldRow>
      <DecisionReason />
    </RecordForm>
  );
}

function WithdrawalForm({ onLook, ...props }: ActFormProps) {
  return (
    <ReasonForm {...shared(props)} onSubmit={(reason) => onLook({ withdrawal: { reason } })}>
      <p>
        Withdraw records that should not be there, such as fish entered twice. They leave the lists
        but stay in the history with your reason. For fish that died, were culled or placed, use
        “Decide” instead.
      </p>
    </ReasonForm>
  );
}

/** What is to be done for all chosen fish. */
export const actForms: Record<ActKind, (props: ActFormProps) => React.ReactNode> = {
  line: LineForm,
  decision: DecisionForm,
  withdrawal: WithdrawalForm,
};
