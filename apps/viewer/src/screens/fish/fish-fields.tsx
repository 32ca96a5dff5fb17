import { z } from 'zod';
import {
  optionalDate,
  optionalId,
  optionalText,
  requiredText,
} from '../../components/field-rules.js';
import { ChoiceField, DateField, LongTextField, TextField } from '../../components/fields.js';
import { FieldRow } from '../../components/record-form.js';
import { FishField } from '../../pickers/fish-picker.js';
import { LineField } from '../../pickers/line-field.js';
import { damSexes, optionsOf, sexWord, sireSexes } from '../../wording/words.js';

export const fishSchema = z.object({
  tag: requiredText('Give the tag on the jar, such as T24-07-12.'),
  name: optionalText,
  sex: z.enum(['MALE', 'FEMALE', 'UNSEXED', 'UNCERTAIN']),
  hatchDate: optionalDate,
  lineId: optionalId,
  sireId: optionalId,
  damId: optionalId,
  origin: optionalText,
  note: optionalText,
});

export const fishFieldNames = {
  tag: 'Tag',
  name: 'Name',
  sex: 'Sex',
  hatchDate: 'Hatch date',
  lineId: 'Line',
  sireId: 'Sire',
  damId: 'Dam',
  origin: 'Origin',
  note: 'Note',
} satisfies Record<keyof z.input<typeof fishSchema>, string>;

/** The fields of a fish's own facts. A fish that belongs to a spawn takes its parents from the spawn. */
export function FishFields({ parentsFromSpawn = null }: { parentsFromSpawn?: string | null }) {
  return (
    <>
      <FieldRow>
        <TextField
          name="tag"
          label="Tag"
          hint="Unique in your stock and never used again."
          required
          autoFocus
        />
        <TextField name="name" label="Name" hint="Only if it has one." />
      </FieldRow>
      <FieldRow>
        <ChoiceField
          name="sex"
          label="Sex"
          choices={optionsOf(sexWord)}
          hint="Uncertain is a fair answer."
        />
        <DateField name="hatchDate" label="Hatch date" hint="Blank if not known." />
        <LineField />
      </FieldRow>
      {parentsFromSpawn === null ? (
        <FieldRow>
          <FishField name="sireId" label="Sire" sexes={sireSexes} hint="Blank for a founder." />
          <FishField name="damId" label="Dam" sexes={damSexes} hint="Blank for a founder." />
        </FieldRow>
      ) : (
        <p className="lw-quiet">
          Its sire and dam are those of spawn {parentsFromSpawn}; correct them there.
        </p>
      )}
      <TextField name="origin" label="Origin" hint="Where a bought or founder fish came from." />
      <LongTextField name="note" label="Note" />
    </>
  );
}
