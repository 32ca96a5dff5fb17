import { Button } from '@mantine/core';
import { useController, useFieldArray } from 'react-hook-form';
import { ChoiceField, NumberField, TickField, type Choice } from '../../components/fields.js';
import { FieldRow } from '../../components/record-form.js';
import { useShownField } from '../../components/shown-fields.js';
import { SeveralField } from '../../pickers/several-field.js';
import { newLook, type PurposeValues } from './purpose-values.js';

const wishes = [
  { value: 'yes', label: 'wanted' },
  { value: 'no', label: 'not wanted' },
];

/** Looks that young are to show, and those that they are not. */
export function LookAimFields({ looks }: { looks: readonly Choice[] }) {
  const { fields, append, remove } = useFieldArray<PurposeValues, 'looks'>({ name: 'looks' });
  return (
    <>
      <h3 className="lw-part-title">Looks</h3>
      <p className="lw-quiet lw-words">
        Colours, fins and patterns by their loci. Choose several for one fish that shows all of
        them, such as double tail and steel blue.
      </p>
      {fields.map((field, k) => (
        <fieldset key={field.id} className="lw-block">
          <legend>Look {k + 1}</legend>
          <LookParts name={`looks.${k}.parts`} looks={looks} />
          <FieldRow>
            <ChoiceField name={`looks.${k}.wanted`} label="Wish" choices={wishes} />
            <NumberField name={`looks.${k}.worth`} label="Points for one young" />
          </FieldRow>
          <TickField
            name={`looks.${k}.required`}
            label="Decides whether a young passes"
            hint="Wanted: a young without it does not pass. Not wanted: a young with it does not pass."
          />
          <span className="lw-row-buttons">
            <button type="button" aria-label={`Remove look ${k + 1}`} onClick={() => remove(k)}>
              Remove
            </button>
          </span>
        </fieldset>
      ))}
      <div>
        <Button type="button" onClick={() => append(newLook(), { shouldFocus: false })}>
          Add a look
        </Button>
      </div>
    </>
  );
}

function LookParts({ name, looks }: { name: string; looks: readonly Choice[] }) {
  useShownField(name);
  const { field, fieldState } = useController({ name });
  return (
    <>
      <SeveralField
        label="The fish shows"
        none="choose one or more"
        choices={looks}
        value={field.value as string[]}
        onChange={field.onChange}
      />
      {fieldState.error?.message !== undefined && (
        <p className="lw-field-error" role="alert">
          {fieldState.error.message}
        </p>
      )}
    </>
  );
}
