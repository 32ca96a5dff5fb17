import { zodResolver } from '@hookform/resolvers/zod';
import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import {
  useFieldArray,
  useForm,
  useFormContext,
  type UseFieldArrayRemove,
  type UseFieldArrayMove,
  type UseFieldArrayAppend,
} from 'react-hook-form';
import { Link } from 'react-router';
import { newId } from '../../api/new-id.js';
import { CREATE_SHEET, REVISE_SHEET, type ScoreSheet } from '../../api/score-sheets.js';
import { TRAITS, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ChoiceField, LongTextField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { Empty, Shown } from '../../components/states.js';
import { rangeText } from '../../wording/scores.js';
import { deductingSeverities, severityWord } from '../../wording/sheet-words.js';
import { capital, optionsOf } from '../../wording/words.js';
import { contentOf, lineOf, sheetSchema, valuesOf, type SheetValues } from './sheet-form-values.js';

interface SheetFormProps {
  sheet: ScoreSheet | null;
  onSaved: (id: string) => void;
  onCancel: () => void;
}

/** Makes a sheet or revises one; looks already given keep the version they were given on. */
export function SheetForm(props: SheetFormProps) {
  const read = useRead(TRAITS, {});
  return (
    <Shown read={read} what="the traits">
      {({ traits }) =>
        traits.length === 0 ? (
          <Empty action={<Link to="/traits">Define a trait</Link>}>
            No trait is defined yet. Define what you score first, or start from one of the offered
            sheets, which brings its traits.
          </Empty>
        ) : (
          <Fields traits={traits} {...props} />
        )
      }
    </Shown>
  );
}

function Fields({
  traits,
  sheet,
  onSaved,
  onCancel,
}: SheetFormProps & { traits: readonly Trait[] }) {
  const form = useForm({ resolver: zodResolver(sheetSchema), defaultValues: valuesOf(sheet) });
  const creation = useSave(CREATE_SHEET);
  const revision = useSave(REVISE_SHEET);
  const used = sheet === null ? creation : revision;
  const [id] = useState(newId);
  return (
    <RecordForm
      form={form}
      submit={sheet === null ? 'Save sheet' : 'Save revision'}
      saving={used.saving}
      problem={used.problem}
      onCancel={onCancel}
      onSubmit={async (values) => {
        const { name, description } = values;
        const content = contentOf(values);
        const saved =
          sheet === null
            ? await creation.save({ input: { id, name, description, content } })
            : await revision.save({
                input: { id: sheet.id, revision: sheet.revision, name, description, content },
              });
        if (saved !== null) onSaved(sheet?.id ?? id);
      }}
    >
      <FieldRow>
        <TextField name="name" label="Name" required autoFocus />
        <NumberField name="fromAgeDays" label="From age" unit="days" />
        <NumberField name="toAgeDays" label="To age" unit="days" />
      </FieldRow>
      <LongTextField name="description" label="What it is for" />
      <Lines traits={traits} />
      <Faults />
      {sheet !== null && (
        <p className="lw-quiet">
          A change of traits, weights, ages or faults makes version {sheet.version + 1}. Fish scored
          before keep version {sheet.version}.
        </p>
      )}
    </RecordForm>
  );
}

function Lines({ traits }: { traits: readonly Trait[] }) {
  const { fields, append, remove, move } = useFieldArray<SheetValues, 'lines'>({ name: 'lines' });
  const byId = new Map(traits.map((trait) => [trait.id, trait]));
  const on = new Set(fields.map((field) => field.traitId));
  const left = traits.filter((trait) => !on.has(trait.id));
  return (
    <>
      <h3 className="lw-part-title">Traits</h3>
      <p className="lw-quiet">
        You set the weights; with none set, all traits count equally. A trait counts only with both
        levels: the value that earns no points and the value that earns full points.
      </p>
      {fields.map((field, k) => {
        const trait = byId.get(field.traitId);
        const name = trait?.name ?? 'a withdrawn trait';
        return (
          <LineFields
            key={field.id}
            k={k}
            name={name}
            trait={trait}
            move={move}
            fields={fields}
            remove={remove}
          />
        );
      })}
      {left.length > 0 && <AddTrait byId={byId} append={append} left={left} />}
    </>
  );
}

function AddTrait({
  byId,
  append,
  left,
}: {
  byId: Map<string, Trait>;
  append: UseFieldArrayAppend<SheetValues, 'lines'>;
  left: Trait[];
}) {
  return (
    <NativeSelect
      label="Add a trait"
      value=""
      onChange={(event) => {
        const trait = byId.get(event.currentTarget.value);
        if (trait !== undefined) append(lineOf(trait), { shouldFocus: false });
      }}
      data={[
        { value: '', label: 'choose…' },
        ...left.map((trait) => ({ value: trait.id, label: trait.name })),
      ]}
    />
  );
}

interface LineFieldsProps {
  k: number;
  name: string;
  trait: Trait | undefined;
  move: UseFieldArrayMove;
  fields: ({ traitId: string; weight: string; noneAt: string; fullAt: string } & Record<
    'id',
    string
  > & { disabled?: boolean })[];
  remove: UseFieldArrayRemove;
}

function LineFields({ k, name, trait, move, fields, remove }: LineFieldsProps) {
  return (
    <fieldset className="lw-block">
      <legend>
        {k + 1}. {name}{' '}
        {trait !== undefined && (
          <span className="lw-quiet">
            {[rangeText(trait), trait.unit].filter(Boolean).join(' ')}
          </span>
        )}
      </legend>
      <FieldRow>
        <NumberField name={`lines.${k}.noneAt`} label="No points at" unit={trait?.unit ?? null} />
        <NumberField name={`lines.${k}.fullAt`} label="Full points at" unit={trait?.unit ?? null} />
        <NumberField name={`lines.${k}.weight`} label="Weight" />
      </FieldRow>
      <span className="lw-row-buttons">
        <button
          type="button"
          aria-label={`Move ${name} up`}
          disabled={k === 0}
          onClick={() => move(k, k - 1)}
        >
          Up
        </button>
        <button
          type="button"
          aria-label={`Move ${name} down`}
          disabled={k === fields.length - 1}
          onClick={() => move(k, k + 1)}
        >
          Down
        </button>
        <button type="button" aria-label={`Remove ${name}`} onClick={() => remove(k)}>
          Remove
        </button>
      </span>
    </fieldset>
  );
}

function Faults() {
  const { fields, append, remove } = useFieldArray<SheetValues, 'faults', 'row'>({
    name: 'faults',
    keyName: 'row',
  });
  const { watch } = useFormContext<SheetValues>();
  const names = watch('faults');
  return (
    <>
      <h3 className="lw-part-title">Faults</h3>
      <p className="lw-quiet">
        Marked when seen. You set how many points of 100 each class takes off; blank takes none. A
        disqualifying fault disqualifies the fish whatever its total.
      </p>
      <FieldRow>
        {deductingSeverities.map((of) => (
          <NumberField
            key={of}
            name={`points.${of}`}
            label={capital(severityWord[of])}
            unit="points"
          />
        ))}
      </FieldRow>
      {fields.map((field, k) => (
        <FaultFields key={field.row} k={k} names={names} remove={remove} />
      ))}
      <div>
        <Button onClick={() => append({ id: newId(), name: '', severity: 'MINOR' })}>
          Add a fault
        </Button>
      </div>
    </>
  );
}

interface FaultFieldsProps {
  k: number;
  names: {
    id: string;
    name: string;
    severity: 'DISQUALIFYING' | 'MAJOR' | 'MINOR' | 'SEVERE' | 'SLIGHT';
  }[];
  remove: UseFieldArrayRemove;
}

function FaultFields({ k, names, remove }: FaultFieldsProps) {
  return (
    <div className="lw-block">
      <FieldRow>
        <TextField name={`faults.${k}.name`} label={`Fault ${k + 1}`} />
        <ChoiceField
          name={`faults.${k}.severity`}
          label={`Class of fault ${k + 1}`}
          choices={optionsOf(severityWord)}
        />
      </FieldRow>
      <span className="lw-row-buttons">
        <button
          type="button"
          aria-label={`Remove fault ${names[k]?.name ?? k + 1}`}
          onClick={() => remove(k)}
        >
          Remove
        </button>
      </span>
    </div>
  );
}
