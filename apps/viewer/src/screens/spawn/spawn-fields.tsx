import { z } from 'zod';
import {
  optionalDate,
  optionalId,
  optionalText,
  requiredText,
} from '../../components/field-rules.js';
import { DateField, LongTextField, TextField } from '../../components/fields.js';
import { FieldRow } from '../../components/record-form.js';
import { FishField } from '../../pickers/fish-picker.js';
import { LineField } from '../../pickers/line-field.js';
import { damSexes, sireSexes } from '../../wording/words.js';

export const spawnSchema = z.object({
  tag: requiredText('Give the tag on the tank, such as T24-07.'),
  lineId: optionalId,
  sireId: optionalId,
  damId: optionalId,
  spawnedOn: optionalDate,
  hatchDate: optionalDate,
  purpose: optionalText,
  note: optionalText,
  confirmed: z.boolean(),
});

export const spawnFieldNames = {
  tag: 'Tag',
  lineId: 'Line',
  sireId: 'Sire',
  damId: 'Dam',
  spawnedOn: 'Spawned on',
  hatchDate: 'Hatch date',
  purpose: 'Purpose',
  note: 'Note',
} satisfies Record<Exclude<keyof z.input<typeof spawnSchema>, 'confirmed'>, string>;

export function SpawnFields() {
  return (
    <>
      <FieldRow>
        <TextField name="tag" label="Tag" required hint="Unique in your stock." autoFocus />
        <LineField />
      </FieldRow>
      <FieldRow>
        <FishField name="sireId" label="Sire" sexes={sireSexes} hint="Blank if not known." />
        <FishField name="damId" label="Dam" sexes={damSexes} hint="Blank if not known." />
      </FieldRow>
      <FieldRow>
        <DateField name="spawnedOn" label="Spawned on" />
        <DateField name="hatchDate" label="Hatch date" />
      </FieldRow>
      <TextField name="purpose" label="Purpose" hint="What this pair is for." />
      <LongTextField name="note" label="Note" />
    </>
  );
}
