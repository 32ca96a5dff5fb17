import { NativeSelect } from '@mantine/core';
import { useFieldArray, useFormContext } from 'react-hook-form';
import type { PurposeTrait } from '../../api/line-purpose.js';
import { ChoiceField, NumberField } from '../../components/fields.js';
import { FieldRow } from '../../components/record-form.js';
import { rangeText } from '../../wording/scores.js';
import { newAim, type PurposeValues } from './purpose-values.js';
import { directionWords } from './purpose-words.js';

const directions = (['HIGHER', 'LOWER', 'WITHIN'] as const).map((value) => ({
  value,
  label: directionWords[value],
}));

/** What is wanted of each trait: direction, the range that passes, and what a unit is worth. */
export function TraitAimFields({ traits }: { traits: readonly PurposeTrait[] }) {
  const { fields, append, remove } = useFieldArray<PurposeValues, 'traits'>({ name: 'traits' });
  const byId = new Map(traits.map((trait) => [trait.id, trait]));
  const used = new Set(fields.map(({ traitId }) => traitId));
  const left = traits.filter(({ id }) => !used.has(id));
  return (
    <>
      <h3 className="lw-part-title">Traits</h3>
      <p className="lw-quiet lw-words">
        Points have no size of their own: only how they compare counts. If 10 degrees of spread are
        as good to you as one grade of evenness, give 0.1 points for a degree and 1 for a grade.
      </p>
      {fields.map((field, k) => (
        <OneAim key={field.id} k={k} trait={byId.get(field.traitId)} onRemove={() => remove(k)} />
      ))}
      {left.length > 0 && (
        <NativeSelect
          label="Add a trait"
          value=""
          onChange={(event) => {
            const trait = byId.get(event.currentTarget.value);
            if (trait !== undefined) append(newAim(trait), { shouldFocus: false });
          }}
          data={[
            { value: '', label: 'choose…' },
            ...left.map(({ id, name }) => ({ value: id, label: name })),
          ]}
        />
      )}
    </>
  );
}

interface OneAimProps {
  k: number;
  trait: PurposeTrait | undefined;
  onRemove: () => void;
}

function OneAim({ k, trait, onRemove }: OneAimProps) {
  const { watch } = useFormContext<PurposeValues>();
  const within = watch(`traits.${k}.better`) === 'WITHIN';
  const name = trait?.name ?? 'a withdrawn trait';
  const unit = trait?.unit ?? null;
  return (
    <fieldset className="lw-block">
      <legend>
        {name}{' '}
        {trait !== undefined && (
          <span className="lw-quiet">{[rangeText(trait), unit].filter(Boolean).join(' ')}</span>
        )}
      </legend>
      <FieldRow>
        <ChoiceField name={`traits.${k}.better`} label="Better" choices={directions} />
        <NumberField name={`traits.${k}.low`} label="Passes from" unit={unit} />
        <NumberField name={`traits.${k}.high`} label="Passes up to" unit={unit} />
        <NumberField
          name={`traits.${k}.worth`}
          label={within ? 'Points lost for 1 outside' : 'Points for 1 more'}
          unit={unit === null ? null : `per ${unit}`}
        />
      </FieldRow>
      <span className="lw-row-buttons">
        <button type="button" aria-label={`Remove ${name}`} onClick={onRemove}>
          Remove
        </button>
      </span>
    </fieldset>
  );
}
