import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { CORRECT_TRAIT, CREATE_TRAIT, type Trait } from '../../api/traits.js';
import { useSave } from '../../api/use-save.js';
import {
  optionalNumber,
  optionalText,
  optionalWholeNumber,
  requiredText,
} from '../../components/field-rules.js';
import { ChoiceField, LongTextField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { optionsOf, traitKindWord } from '../../wording/words.js';
import { gradeLines, gradesIn } from './grade-lines.js';

const gradesText = z.string().transform((text, context) => {
  const grades = gradesIn(text);
  if (grades !== null) return grades;
  context.addIssue({
    code: 'custom',
    message:
      'Give one grade per line: the value it begins at, then its name, such as 160 superdelta.',
  });
  return z.NEVER;
});

const schema = z
  .object({
    key: z
      .string()
      .trim()
      .regex(
        /^[a-z][a-z0-9_]*$/,
        'Use small letters, digits and _, such as body_length; it heads the column in CSV files.',
      ),
    name: requiredText('Give the trait a name, such as Body length.'),
    kind: z.enum(['MEASURED', 'ORDINAL', 'YES_NO', 'COUNT']),
    unit: optionalText,
    minimum: optionalNumber,
    maximum: optionalNumber,
    better: z.enum(['', 'higher', 'lower']),
    fromAgeDays: optionalWholeNumber,
    toAgeDays: optionalWholeNumber,
    description: optionalText,
    grades: gradesText,
  })
  .refine(({ minimum, maximum }) => minimum === null || maximum === null || minimum < maximum, {
    path: ['maximum'],
    message: 'The highest value must be above the lowest.',
  })
  .refine(
    ({ fromAgeDays, toAgeDays }) =>
      fromAgeDays === null || toAgeDays === null || fromAgeDays <= toAgeDays,
    {
      path: ['toAgeDays'],
      message: 'The last day must not come before the first.',
    },
  );

const text = (value: number | null | undefined) => (value == null ? '' : String(value));

function betterOf(trait: Trait | null): '' | 'higher' | 'lower' {
  if (trait?.higherIsBetter == null) return '';
  return trait.higherIsBetter ? 'higher' : 'lower';
}

interface TraitFormProps {
  trait: Trait | null;
  onSaved: () => void;
  onCancel: () => void;
}

const typedOf = (trait: Trait | null) => ({
  key: trait?.key ?? '',
  name: trait?.name ?? '',
  kind: trait?.kind ?? ('MEASURED' as const),
  unit: trait?.unit ?? '',
  minimum: text(trait?.minimum),
  maximum: text(trait?.maximum),
  better: betterOf(trait),
  fromAgeDays: text(trait?.fromAgeDays),
  toAgeDays: text(trait?.toAgeDays),
  description: trait?.description ?? '',
  grades: gradeLines(trait?.grades ?? []),
});

/** Saves a new trait, or the correction of one; resolves to whether it did. */
function useTraitSave(trait: Trait | null) {
  const creation = useSave(CREATE_TRAIT);
  const correction = useSave(CORRECT_TRAIT);
  const { saving, problem } = trait === null ? creation : correction;
  const keep = async ({ key, kind, better, ...rest }: z.output<typeof schema>) => {
    const values = { ...rest, higherIsBetter: better === '' ? null : better === 'higher' };
    if (trait === null) return (await creation.save({ input: { key, kind, ...values } })) !== null;
    const { id, revision } = trait;
    return (await correction.save({ input: { id, revision, ...values } })) !== null;
  };
  return { keep, saving, problem };
}

/** A new trait, or a correction of one. The key and kind of a trait stay as they were made. */
export function TraitForm({ trait, onSaved, onCancel }: TraitFormProps) {
  const form = useForm({ resolver: zodResolver(schema), defaultValues: typedOf(trait) });
  const { keep, saving, problem } = useTraitSave(trait);
  return (
    <RecordForm
      form={form}
      submit={trait === null ? 'Save trait' : 'Save correction'}
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (values) => {
        if (await keep(values)) onSaved();
      }}
    >
      <NameFields trait={trait} />
      <FieldRow>
        <TextField name="unit" label="Unit" hint="Such as mm, g, degrees." />
        <NumberField name="minimum" label="Lowest value" />
        <NumberField name="maximum" label="Highest value" />
      </FieldRow>
      <MeaningFields />
      <WordsFields />
      {trait !== null && (
        <p className="lw-quiet">
          A change of unit, range or grades changes what the numbers mean, so it makes version{' '}
          {trait.version + 1}; older scores keep version {trait.version}.
        </p>
      )}
    </RecordForm>
  );
}

function WordsFields() {
  return (
    <>
      <LongTextField
        name="description"
        label="How to score it"
        hint="So that two people score alike."
      />
      <LongTextField
        name="grades"
        label="Names of grades"
        hint="One per line, such as 160 superdelta: from that value up to the next."
      />
    </>
  );
}

function MeaningFields() {
  return (
    <FieldRow>
      <ChoiceField
        name="better"
        label="Better when"
        choices={[
          { value: '', label: 'neither' },
          { value: 'higher', label: 'higher' },
          { value: 'lower', label: 'lower' },
        ]}
      />
      <NumberField name="fromAgeDays" label="Score from age" unit="days" />
      <NumberField name="toAgeDays" label="Score to age" unit="days" />
    </FieldRow>
  );
}

function NameFields({ trait }: { trait: Trait | null }) {
  return (
    <FieldRow>
      <TextField name="name" label="Name" required autoFocus />
      {trait === null && (
        <>
          <TextField name="key" label="Short key" required hint="Heads its column in CSV files." />
          <ChoiceField name="kind" label="Kind" choices={optionsOf(traitKindWord)} required />
        </>
      )}
    </FieldRow>
  );
}
