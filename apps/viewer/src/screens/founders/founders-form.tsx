import { zodResolver } from '@hookform/resolvers/zod';
import { useEffect } from 'react';
import { useForm, useFormContext, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { NEXT_TAGS, RECORD_FOUNDERS } from '../../api/founders.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import {
  given,
  optionalDate,
  optionalId,
  optionalText,
  requiredText,
} from '../../components/field-rules.js';
import { ChoiceField, DateField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { LineField } from '../../pickers/line-field.js';
import { useOnlyLine } from '../../pickers/use-offered-tag.js';
import { plural } from '../../wording/figures.js';
import { sexWord } from '../../wording/words.js';
import { FounderPhoto, PhotosNotSent } from './founder-photos.js';
import { countIn, MOST_OF_A_SEX, rowsFor, withTags, type FounderRow } from './founder-rows.js';
import { useFounderPhotos, type FounderPhotos } from './use-founder-photos.js';
import styles from './founders.module.css';

const count = z
  .string()
  .refine(
    (text) => text.trim() === '' || (/^\d+$/.test(text.trim()) && Number(text) <= MOST_OF_A_SEX),
    `Give a whole number from 0 to ${MOST_OF_A_SEX}.`,
  );

const schema = z
  .object({
    lineId: optionalId,
    relation: z.enum(['SIBS', 'UNRELATED', 'UNKNOWN']),
    origin: optionalText,
    hatchDate: optionalDate,
    ...{ males: count, females: count, unsexed: count },
    fish: z.array(
      z.object({
        id: z.string(),
        sex: z.enum(['MALE', 'FEMALE', 'UNSEXED', 'UNCERTAIN']),
        tag: requiredText('Give the tag on the jar.'),
        offered: z.string(),
        name: z.string(),
      }),
    ),
  })
  .refine(({ fish }) => fish.length > 0, {
    path: ['males'],
    message: 'Say how many fish there are.',
  });

type Values = z.input<typeof schema>;

interface FoundersFormProps {
  lineId?: string;
  onSaved: () => void;
  onCancel?: () => void;
}

/** Fish that came together: how many of each sex, how they are related, and for each a tag, a name and a picture. */
export function FoundersForm({ lineId = '', onSaved, onCancel }: FoundersFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ lineId, relation: 'UNKNOWN', origin: '', hatchDate: '' },
      ...{ males: '', females: '', unsexed: '', fish: [] },
    } as Values,
  });
  const { save, saving, problem } = useSave(RECORD_FOUNDERS);
  const photos = useFounderPhotos();
  if (photos.sending || photos.notSent.length > 0)
    return <PhotosNotSent photos={photos} onDone={onSaved} />;
  const number = form.watch('fish').length;
  return (
    <RecordForm
      form={form}
      submit={number === 0 ? 'Save founders' : `Save ${plural(number, 'founder')}`}
      saving={saving}
      problem={problem}
      {...(onCancel === undefined ? {} : { onCancel })}
      onSubmit={async ({ fish, relation, ...rest }) => {
        const { males: _, females: __, unsexed: ___, ...facts } = rest;
        const founders = fish.map(({ id, sex, tag, name }) => ({
          ...{ id, sex, tag },
          ...given({ name: name.trim() === '' ? null : name }),
        }));
        const input = { relation, fish: founders, ...given(facts) };
        if ((await save({ input })) !== null && (await photos.send(fish))) onSaved();
      }}
    >
      <SharedFields />
      <FounderFields photos={photos} />
    </RecordForm>
  );
}

function SharedFields() {
  useOnlyLine();
  return (
    <>
      <FieldRow>
        <NumberField name="males" label="Males" />
        <NumberField name="females" label="Females" />
        <NumberField name="unsexed" label="Not sexed yet" />
      </FieldRow>
      <FieldRow>
        <LineField />
        <ChoiceField
          name="relation"
          label="How they are related"
          hint="It decides what F of their young is."
          choices={[
            { value: 'UNKNOWN', label: 'not known' },
            { value: 'SIBS', label: 'brothers and sisters of one brood' },
            { value: 'UNRELATED', label: 'unrelated, and to my other fish' },
          ]}
        />
      </FieldRow>
      <FieldRow>
        <TextField name="origin" label="Origin" hint="Shop, breeder or show." />
        <DateField name="hatchDate" label="Hatch date" hint="Blank if not known." />
      </FieldRow>
    </>
  );
}

/** Keeps one row for each fish that is asked for, each with a tag that is free. */
function useRows(): readonly FounderRow[] {
  const { control, getValues, setValue } = useFormContext<Values>();
  const [males, females, unsexed, lineId] = useWatch({
    control,
    name: ['males', 'females', 'unsexed', 'lineId'],
  });
  const read = useRead(NEXT_TAGS, {
    ...{ kind: 'FISH', number: 50 },
    lineId: lineId === '' ? null : lineId,
  });
  const offered = read.data?.nextTags;
  useEffect(() => {
    const counts = {
      males: countIn(males),
      females: countIn(females),
      unsexed: countIn(unsexed),
    };
    const rows = rowsFor(getValues('fish'), counts);
    setValue('fish', offered === undefined ? rows : withTags(rows, offered));
  }, [males, females, unsexed, offered, getValues, setValue]);
  return useWatch({ control, name: 'fish' });
}

function FounderFields({ photos }: { photos: FounderPhotos }) {
  const rows = useRows();
  if (rows.length === 0) return null;
  return (
    <ul className={styles['founders']} aria-label="The founders">
      {rows.map((row, at) => (
        <li key={row.id} className={styles['founder']}>
          <span className={styles['sex']}>{sexWord[row.sex]}</span>
          <TextField name={`fish.${at}.tag`} label="Tag" required />
          <TextField name={`fish.${at}.name`} label="Name" />
          <FounderPhoto row={row} photos={photos} />
        </li>
      ))}
    </ul>
  );
}
