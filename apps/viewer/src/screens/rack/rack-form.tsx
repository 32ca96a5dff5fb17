import { zodResolver } from '@hookform/resolvers/zod';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { useSave } from '../../api/use-save.js';
import { CREATE_VESSELS } from '../../api/vessels.js';
import { optionalNumber, requiredText, wholeNumber } from '../../components/field-rules.js';
import { ChoiceField, NumberField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { vesselKindWord } from '../../wording/vessel-words.js';
import { optionsOf } from '../../wording/words.js';
import { codesOfRack } from './racks.js';

/** As many as one request records. */
const MOST = 200;

const schema = z
  .object({
    rack: requiredText('Give the rack a name.'),
    begin: z.string(),
    shelves: wholeNumber(1, MOST),
    positions: wholeNumber(1, MOST),
    kind: z.enum(['JAR', 'TANK', 'TUB', 'CONE', 'OTHER']),
    litres: optionalNumber,
  })
  .refine(({ shelves, positions }) => shelves * positions <= MOST, {
    path: ['positions'],
    message: `At most ${MOST} vessels are put up at once: give fewer, and put up the rest after.`,
  });

interface RackFormProps {
  onMade: () => void;
  onCancel: () => void;
}

/** A rack with all its vessels at once, their codes made from shelf and position. */
export function RackForm({ onMade, onCancel }: RackFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ rack: '', begin: '', shelves: '4', positions: '8', litres: '' },
      kind: 'JAR' as const,
    },
  });
  const { save, saving, problem } = useSave(CREATE_VESSELS);
  return (
    <RecordForm
      form={form}
      submit="Put up the rack"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ rack, begin, shelves, positions, kind, litres }) => {
        const input = codesOfRack(begin, shelves, positions).map((one) => ({
          ...one,
          ...{ rack, kind, litres },
        }));
        if ((await save({ input })) !== null) onMade();
      }}
    >
      <TextField name="rack" label="Name of the rack" required hint="Such as: Rack 1, window." />
      <FieldRow>
        <NumberField name="shelves" label="Shelves" required />
        <NumberField name="positions" label="Vessels on a shelf" required />
      </FieldRow>
      <FieldRow>
        <ChoiceField name="kind" label="Kind" choices={optionsOf(vesselKindWord)} />
        <NumberField name="litres" label="Each holds" unit="litres" />
      </FieldRow>
      <TextField
        name="begin"
        label="Codes begin with"
        hint="Blank for the first rack; such as 2- for the second, as each code is there once."
      />
      <Codes />
    </RecordForm>
  );
}

/** The first and the last code as they would be. */
function Codes() {
  const [begin, shelves, positions] = useWatch({
    name: ['begin', 'shelves', 'positions'],
  }) as readonly string[];
  const codes = codesOfRack(
    begin ?? '',
    Math.min(MOST, Number(shelves) || 0),
    Math.min(MOST, Number(positions) || 0),
  );
  const [first, last] = [codes[0], codes.at(-1)];
  if (first === undefined || last === undefined) return null;
  return (
    <p className="lw-quiet">
      Codes from {first.code} to {last.code}. Shelf A is the uppermost.
    </p>
  );
}
