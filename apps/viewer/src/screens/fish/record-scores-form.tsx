import { zodResolver } from '@hookform/resolvers/zod';
import { useMemo } from 'react';
import { useForm } from 'react-hook-form';
import { Link } from 'react-router';
import { z } from 'zod';
import { RECORD_SCORES } from '../../api/fish.js';
import { TRAITS, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { optionalScore, optionalText, requiredDate } from '../../components/field-rules.js';
import { ChoiceField, DateField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Empty, Shown } from '../../components/states.js';
import { ageText, plainNumber, span, today } from '../../wording/figures.js';
import { rangeText } from '../../wording/scores.js';

interface RecordScoresFormProps {
  fish: { id: string; tag: string; hatchDate: string | null };
  onSaved: () => void;
  onCancel: () => void;
}

/** All traits on one sheet; what is left blank is not recorded. */
export function RecordScoresForm(props: RecordScoresFormProps) {
  const read = useRead(TRAITS, {});
  return (
    <Shown read={read} what="the traits">
      {({ traits }) =>
        traits.length === 0 ? (
          <Empty action={<Link to="/traits">Define a trait</Link>}>
            No trait is defined yet. Define what you score first: spread in degrees, body length in
            mm, ventrals from 1 to 10.
          </Empty>
        ) : (
          <TraitSheet traits={traits} {...props} />
        )
      }
    </Shown>
  );
}

function whenScored({ fromAgeDays, toAgeDays }: Trait): string | null {
  if (fromAgeDays === null && toAgeDays === null) return null;
  if (toAgeDays === null) return `from ${ageText(fromAgeDays ?? 0)}`;
  return `at ${span(ageText(fromAgeDays ?? 0), ageText(toAgeDays))}`;
}

const schemaOf = (traits: readonly Trait[]) =>
  z.object({
    scoredOn: requiredDate,
    scorer: optionalText,
    values: z.object(Object.fromEntries(traits.map((trait) => [trait.id, optionalScore(trait)]))),
  });

interface TraitSheetProps extends RecordScoresFormProps {
  traits: readonly Trait[];
}

function TraitSheet({ traits, fish, onSaved, onCancel }: TraitSheetProps) {
  const schema = useMemo(() => schemaOf(traits), [traits]);
  const blank = Object.fromEntries(traits.map((trait) => [trait.id, '']));
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { scoredOn: today(), scorer: '', values: blank },
  });
  const { save, saving, problem } = useSave(RECORD_SCORES);
  const keep = async ({ scoredOn, scorer, values }: z.output<typeof schema>) => {
    const scores = Object.entries(values).flatMap(([traitId, value]) =>
      value === null ? [] : [{ traitId, value }],
    );
    const first = traits[0];
    if (scores.length === 0 && first !== undefined) {
      form.setError(`values.${first.id}`, { message: 'Fill in at least one score.' });
      return;
    }
    const input = { fishId: fish.id, scoredOn, scorer, scores };
    if ((await save({ input })) !== null) onSaved();
  };
  const parts = { form, saving, problem, onCancel };
  return (
    <RecordForm {...parts} submit="Save scores" onSubmit={keep}>
      <FieldRow>
        <DateField name="scoredOn" label="Date" required />
        <TextField name="scorer" label="Scorer" hint="Blank: you." />
      </FieldRow>
      <FieldRow>
        <TraitFields traits={traits} />
      </FieldRow>
    </RecordForm>
  );
}

function TraitFields({ traits }: { traits: readonly Trait[] }) {
  return traits.map((trait) => {
    const hint = [rangeText(trait), whenScored(trait)].filter(Boolean).join(', ');
    return trait.kind === 'YES_NO' ? (
      <ChoiceField
        key={trait.id}
        name={`values.${trait.id}`}
        label={trait.name}
        hint={hint}
        choices={[
          { value: '', label: 'not scored' },
          { value: '1', label: 'yes' },
          { value: '0', label: 'no' },
        ]}
      />
    ) : (
      <NumberField
        key={trait.id}
        name={`values.${trait.id}`}
        label={trait.name}
        hint={hint || plainKind(trait)}
        unit={trait.unit}
      />
    );
  });
}

function plainKind({ kind, maximum }: Trait): string {
  return kind === 'COUNT'
    ? 'a count'
    : kind === 'ORDINAL'
      ? `steps up to ${plainNumber(maximum ?? 10)}`
      : 'a number';
}
