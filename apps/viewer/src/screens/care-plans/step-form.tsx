import { zodResolver } from '@hookform/resolvers/zod';
import { useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import type { CareStep } from '../../api/care.js';
import { optionalNumber, optionalText, requiredText } from '../../components/field-rules.js';
import { ChoiceField, LongTextField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { optionsOf } from '../../wording/words.js';
import { anchorChoices, changedStep, typedStep } from './edited-steps.js';
import { stepKindWord } from './step-words.js';

const timing = z.object({
  after: z.string(),
  hours: optionalNumber,
  earliest: optionalNumber,
  latest: optionalNumber,
});

const schema = z
  .object({
    title: requiredText('Say what is done.'),
    kind: z.enum(['PREPARE', 'DO', 'OBSERVE', 'FEED']),
    after: z.array(timing),
    everyHours: optionalNumber,
    until: z.string(),
    lapseHours: optionalNumber,
    why: optionalText,
    caution: optionalText,
  })
  .refine(({ after }) => after.some((each) => each.after !== ''), {
    path: ['after.0.after'],
    message: 'Name what it comes after.',
  });

interface StepFormProps {
  step: CareStep;
  steps: readonly CareStep[];
  onSave: (step: CareStep) => void;
  onCancel: () => void;
}

/** One step: what, after what, when, how often, and why. Once changed it is the person's own. */
export function StepForm({ step, steps, onSave, onCancel }: StepFormProps) {
  const [defaultValues] = useState(() => typedStep(step));
  const form = useForm({ resolver: zodResolver(schema), defaultValues });
  const anchors = anchorChoices(steps.filter((each) => each.id !== step.id));
  return (
    <RecordForm
      form={form}
      submit="Add to the plan"
      saving={false}
      problem={null}
      onCancel={onCancel}
      onSubmit={(values) => onSave(changedStep(step, values, anchors))}
    >
      <TextField name="title" label="What is done" required autoFocus />
      <ChoiceField name="kind" label="Kind" choices={optionsOf(stepKindWord)} />
      {defaultValues.after.map((_, i) => (
        <DueAfterFields key={i} i={i} anchors={anchors} />
      ))}
      <RepeatFields anchors={anchors} />
      <LongTextField name="why" label="Why" />
      <TextField name="caution" label="Caution" />
    </RecordForm>
  );
}

function RepeatFields({ anchors }: { anchors: { value: string; label: string }[] }) {
  return (
    <FieldRow>
      <NumberField name="everyHours" label="Then every" unit="hours" hint="Blank: once." />
      <ChoiceField
        name="until"
        label="Ends when"
        choices={[{ value: '', label: 'never' }, ...anchors]}
      />
      <NumberField
        name="lapseHours"
        label="Removed from Today after"
        unit="hours"
        hint="Counted from the latest time. Blank: it stays."
      />
    </FieldRow>
  );
}

interface DueAfterFieldsProps {
  i: number;
  anchors: { value: string; label: string }[];
}

function DueAfterFields({ i, anchors }: DueAfterFieldsProps) {
  return (
    <div>
      <ChoiceField
        name={`after.${i}.after`}
        label={i === 0 ? 'After' : 'And after (the later one decides)'}
        choices={[{ value: '', label: i === 0 ? 'choose' : 'nothing else' }, ...anchors]}
      />
      <FieldRow>
        <NumberField
          name={`after.${i}.hours`}
          label={i === 0 ? 'About' : 'About, second'}
          unit="hours"
        />
        <NumberField
          name={`after.${i}.earliest`}
          label={i === 0 ? 'Earliest' : 'Earliest, second'}
          unit="hours"
        />
        <NumberField
          name={`after.${i}.latest`}
          label={i === 0 ? 'Latest' : 'Latest, second'}
          unit="hours"
        />
      </FieldRow>
    </div>
  );
}
