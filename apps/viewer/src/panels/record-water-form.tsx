import { zodResolver } from '@hookform/resolvers/zod';
import { useRef } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { newId } from '../api/new-id.js';
import { CORRECT_WATER, RECORD_WATER, type WaterFigures } from '../api/water.js';
import { useSave } from '../api/use-save.js';
import { now } from '../clock/clock.js';
import { optionalNumber, optionalText } from '../components/field-rules.js';
import { ChoiceField, NumberField, TextField } from '../components/fields.js';
import { FieldRow, RecordForm } from '../components/record-form.js';
import { UnitChoiceField } from '../components/unit-choice.js';
import { toLocalTimeText } from '../wording/figures.js';
import type { AmmoniaUnit, NitrogenForm } from '../wording/water-words.js';
import styles from './record-water-form.module.css';

export type WaterTarget = { readonly spawnId: string } | { readonly vessel: string | null };

const schema = z
  .object({
    vessel: z.string(),
    totalAmmonia: optionalNumber,
    ammoniaUnit: z.string(),
    pH: optionalNumber,
    celsius: optionalNumber,
    nitrite: optionalNumber,
    nitriteForm: z.string(),
    nitrate: optionalNumber,
    nitrateForm: z.string(),
    takenAt: z.string().min(1, 'Give the time.'),
    kit: optionalText,
    note: optionalText,
  })
  .refine((values) => values.totalAmmonia === null || values.ammoniaUnit !== '', {
    path: ['ammoniaUnit'],
    message: 'Choose what the kit prints: without it the figure says nothing.',
  });

type Values = z.output<typeof schema>;

const formsOf = (ion: string) => [
  { value: 'ION', label: `as ${ion}` },
  { value: 'N', label: `as ${ion}-N` },
];

interface RecordWaterFormProps {
  target: WaterTarget;
  /** The reading before: its kit and units are offered again. */
  before: WaterFigures | null;
  /** The reading to correct; a new one is recorded when left out. */
  correcting?: WaterFigures;
  onClose: () => void;
}

const typed = (value: number | null | undefined): string =>
  value === null || value === undefined ? '' : String(value);

/** What the form begins with: the reading to correct, else blank figures with the units and kit of the one before. */
function valuesAtFirst({ target, before, correcting }: RecordWaterFormProps) {
  return {
    vessel: 'vessel' in target ? (target.vessel ?? '') : '',
    totalAmmonia: typed(correcting?.totalAmmonia),
    ammoniaUnit: before?.ammoniaUnit ?? '',
    pH: typed(correcting?.pH),
    celsius: typed(correcting?.celsius),
    nitrite: typed(correcting?.nitrite),
    nitriteForm: before?.nitriteForm ?? 'ION',
    nitrate: typed(correcting?.nitrate),
    nitrateForm: before?.nitrateForm ?? 'ION',
    takenAt: toLocalTimeText(correcting === undefined ? now() : new Date(correcting.takenAt)),
    kit: before?.kit ?? '',
    note: correcting?.note ?? '',
  };
}

/** As it is sent: a unit or form says nothing without its figure. */
function readingOf({ vessel: _, takenAt, ammoniaUnit, nitriteForm, nitrateForm, ...rest }: Values) {
  return {
    takenAt: new Date(takenAt).toISOString(),
    figures: {
      ...rest,
      ammoniaUnit: rest.totalAmmonia === null ? null : (ammoniaUnit as AmmoniaUnit),
      nitriteForm: rest.nitrite === null ? null : (nitriteForm as NitrogenForm),
      nitrateForm: rest.nitrate === null ? null : (nitrateForm as NitrogenForm),
    },
  };
}

/** Records a reading, or corrects one; a retry after a lost answer records it once. */
function useWaterSaving({ target, correcting }: RecordWaterFormProps) {
  const id = useRef(newId());
  const recording = useSave(RECORD_WATER);
  const correction = useSave(CORRECT_WATER);
  const { saving, problem } = correcting === undefined ? recording : correction;
  const save = async (values: Values): Promise<boolean> => {
    const reading = readingOf(values);
    const place = 'vessel' in target ? { vessel: values.vessel } : { spawnId: target.spawnId };
    const saved =
      correcting === undefined
        ? await recording.save({ input: { id: id.current, ...place, ...reading } })
        : await correction.save({
            input: { id: correcting.id, revision: correcting.revision, ...reading },
          });
    return saved !== null;
  };
  return { save, saving, problem };
}

/** One reading, with large fields for a phone beside the tank. */
export function RecordWaterForm(props: RecordWaterFormProps) {
  const { target, correcting, onClose } = props;
  const form = useForm({ resolver: zodResolver(schema), defaultValues: valuesAtFirst(props) });
  const { save, saving, problem } = useWaterSaving(props);
  return (
    <div className={styles['form']}>
      <RecordForm
        form={form}
        submit={correcting === undefined ? 'Save reading' : 'Save correction'}
        saving={saving}
        problem={problem}
        onCancel={onClose}
        onSubmit={async (values) => {
          if (await save(values)) onClose();
        }}
      >
        {'vessel' in target && target.vessel === null && (
          <TextField
            name="vessel"
            label="Vessel"
            required
            hint="A name you will know again: rack 2 sump, tub 4."
          />
        )}
        <FigureFields />
        <TextField name="takenAt" label="Taken at" type="datetime-local" required />
        <TextField name="kit" label="Kit" hint="Such as: drops, colour card." />
        <TextField name="note" label="Note" />
      </RecordForm>
    </div>
  );
}

function FigureFields() {
  return (
    <>
      <FieldRow>
        <NumberField name="totalAmmonia" label="Total ammonia" unit="mg/L" />
        <NumberField name="pH" label="pH" />
        <NumberField name="celsius" label="Temperature" unit="°C" />
      </FieldRow>
      <UnitChoiceField name="ammoniaUnit" />
      <FieldRow>
        <NumberField name="nitrite" label="Nitrite" unit="mg/L" />
        <ChoiceField name="nitriteForm" label="Nitrite is printed" choices={formsOf('NO2')} />
        <NumberField name="nitrate" label="Nitrate" unit="mg/L" />
        <ChoiceField name="nitrateForm" label="Nitrate is printed" choices={formsOf('NO3')} />
      </FieldRow>
    </>
  );
}
