import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { GRANT_LINE, type Grant } from '../../api/grants.js';
import { useSave } from '../../api/use-save.js';
import { TickField, ChoiceField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { LEVEL_HINTS, LEVELS, TICK_NAMES, TICKS } from './grant-words.js';

const schema = z.object({
  personId: z.string().min(1, 'Choose the partner.'),
  level: z.enum(['LOOK', 'SCORE', 'BREED']),
  scores: z.boolean(),
  photos: z.boolean(),
  notes: z.boolean(),
  water: z.boolean(),
  place: z.boolean(),
  prices: z.boolean(),
  ancestors: z.boolean(),
});

const HINTS: Readonly<Record<(typeof TICKS)[number], string>> = {
  photos: 'Pictures of fish and spawns.',
  water: 'Readings, and what was done for the spawns.',
  scores: 'With results of shows. Without them a partner who scores sees their own alone.',
  notes: 'Notes, reasons and captions of fish, spawns, scores and photos.',
  place: 'With whom each fish swims.',
  prices: 'What you paid, asked and got for its fish. With whom: with the notes.',
  ancestors: 'Tag, sex and hatch date. Without it they are drawn without their names.',
};

const AT_FIRST = {
  ...{ scores: true, photos: true, notes: false, water: false, place: false },
  ...{ prices: false, ancestors: false },
};

interface GrantFormProps {
  lineId: string;
  /** What was granted, to be changed; absent for a new one. */
  grant?: Grant;
  /** Of whom one is chosen. */
  partners?: readonly { id: string; name: string }[];
  onDone: () => void;
}

export function GrantForm({ lineId, grant, partners = [], onDone }: GrantFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues:
      grant === undefined
        ? { personId: partners[0]?.id ?? '', level: 'LOOK' as const, ...AT_FIRST }
        : { ...grant, personId: grant.person.id },
  });
  const { save, saving, problem } = useSave(GRANT_LINE);
  const level = form.watch('level');
  return (
    <RecordForm
      form={form}
      submit={grant === undefined ? 'Share the line' : 'Save'}
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async (values) => {
        if ((await save({ input: { lineId, ...values } })) !== null) onDone();
      }}
    >
      {grant === undefined ? (
        <ChoiceField
          name="personId"
          label="Partner"
          choices={partners.map(({ id, name }) => ({ value: id, label: name }))}
        />
      ) : (
        <p>What {grant.person.name} may do and see.</p>
      )}
      <ChoiceField
        name="level"
        label="They may"
        hint={LEVEL_HINTS[level]}
        choices={Object.entries(LEVELS).map(([value, label]) => ({ value, label }))}
      />
      {TICKS.map((part) => (
        <TickField key={part} name={part} label={TICK_NAMES[part]} hint={HINTS[part]} />
      ))}
    </RecordForm>
  );
}
