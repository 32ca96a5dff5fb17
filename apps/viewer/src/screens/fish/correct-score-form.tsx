import { zodResolver } from '@hookform/resolvers/zod';
import { useMemo } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import type { FishEvidence } from '../../api/fish.js';
import type { Problem } from '../../api/problem.js';
import { requiredScore, requiredText } from '../../components/field-rules.js';
import { ChoiceField, NumberField, TextField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { rangeText, scoreText } from '../../wording/scores.js';

interface CorrectScoreFormProps {
  trait: FishEvidence['scores'][number]['trait'];
  was: number;
  saving: boolean;
  problem: Problem | null;
  onSubmit: (value: number, reason: string) => unknown;
  onCancel: () => void;
}

/** A score is never overwritten: the correction is a later score, and both stay readable. */
export function CorrectScoreForm({
  trait,
  was,
  saving,
  problem,
  onSubmit,
  onCancel,
}: CorrectScoreFormProps) {
  const schema = useMemo(
    () =>
      z.object({
        value: requiredScore(trait),
        reason: requiredText('Say what was wrong, such as: misread the ruler.'),
      }),
    [trait],
  );
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { value: String(was), reason: '' },
  });
  return (
    <RecordForm
      form={form}
      submit="Save correction"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={({ value, reason }) => onSubmit(value, reason)}
    >
      <p>
        Recorded: {scoreText(was, trait)}. The correction stands beside it; the old value stays in
        the history.
      </p>
      <ValueField trait={trait} />
      <TextField name="reason" label="Reason" required />
    </RecordForm>
  );
}

function ValueField({ trait }: { trait: FishEvidence['scores'][number]['trait'] }) {
  return trait.kind === 'YES_NO' ? (
    <ChoiceField
      name="value"
      label="Correct value"
      choices={[
        { value: '1', label: 'yes' },
        { value: '0', label: 'no' },
      ]}
      required
    />
  ) : (
    <NumberField
      name="value"
      label="Correct value"
      unit={trait.unit}
      hint={rangeText(trait)}
      required
    />
  );
}
