import { zodResolver } from '@hookform/resolvers/zod';
import { useForm, useWatch } from 'react-hook-form';
import { z } from 'zod';
import { OFFER_FISH, type OfferedFish } from '../../api/hand-overs.js';
import { newId } from '../../api/new-id.js';
import { useSave } from '../../api/use-save.js';
import { optionalDate, optionalText } from '../../components/field-rules.js';
import {
  ChoiceField,
  DateField,
  LongTextField,
  TextField,
  TickField,
} from '../../components/fields.js';
import { Caution } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { FishOfLine } from './fish-of-line.js';
import styles from './offer-form.module.css';

const OTHER = 'other';

const schema = z
  .object({
    toId: z.string(),
    toName: optionalText,
    kind: z.enum(['GIFT', 'SALE', 'LOAN']),
    backOn: optionalDate,
    word: optionalText,
    healthNote: optionalText,
    laterSpawns: z.boolean(),
    withScores: z.boolean(),
    withPhotos: z.boolean(),
    withNotes: z.boolean(),
    others: z.array(z.string()),
  })
  .refine(({ toId, toName }) => toId !== '' && (toId !== OTHER || toName !== null), {
    path: ['toId'],
    message: 'Say to whom.',
  })
  .refine(({ kind, backOn }) => kind !== 'LOAN' || backOn !== null, {
    path: ['backOn'],
    message: 'Say when the fish is to be back.',
  });

interface OfferFormProps {
  fish: OfferedFish;
  people: readonly { readonly id: string; readonly name: string; readonly here: boolean }[];
  /** Whether somebody may be named whom one does not see here. */
  byName: boolean;
  toId: string;
  kind: 'GIFT' | 'SALE' | 'LOAN';
  /** The request that it answers, when it goes to whoever asked. */
  requestId: string | null;
  onOffered: () => void;
}

const kinds = [
  { value: 'GIFT', label: 'give: the record is theirs from then on' },
  { value: 'SALE', label: 'sell: the record is theirs from then on' },
  { value: 'LOAN', label: 'lend: the record stays yours, with a day back' },
];

export function OfferForm(given: OfferFormProps) {
  const { fish, people, byName, toId, kind, requestId, onOffered } = given;
  const known = people.some(({ id }) => id === toId);
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      ...{ toId: known ? toId : '', toName: '', kind, backOn: '', word: '', healthNote: '' },
      ...{ laterSpawns: false, withScores: true, withPhotos: true, withNotes: true },
      others: [] as string[],
    },
  });
  const { save, saving, problem } = useSave(OFFER_FISH);
  return (
    <RecordForm
      form={form}
      submit="Offer"
      saving={saving}
      problem={problem}
      onSubmit={async ({ toId: chosen, toName, others, kind: how, backOn, ...said }) => {
        const to = chosen === OTHER ? { toName } : { toId: chosen };
        const lent = { kind: how, backOn: how === 'LOAN' ? backOn : null };
        const answers = { requestId: chosen === toId ? requestId : null };
        const fishIds = [fish.id, ...others];
        const input = { id: newId(), fishIds, ...to, ...lent, ...answers, ...said };
        if ((await save({ input })) !== null) onOffered();
      }}
    >
      <Receiver people={people} byName={byName} />
      <ChoiceField name="kind" label="How" choices={kinds} />
      <DayBack />
      <FishOfLine fish={fish} />
      <LongTextField name="word" label="A word to them" />
      <HealthNote />
      <GoesAlong />
      <HandOverCaution />
    </RecordForm>
  );
}

function Receiver({ people, byName }: Pick<OfferFormProps, 'people' | 'byName'>) {
  const chosen: unknown = useWatch({ name: 'toId' });
  return (
    <>
      <ChoiceField
        name="toId"
        label="To whom"
        required
        choices={[
          { value: '', label: 'choose' },
          ...people.map(({ id, name, here }) => ({
            value: id,
            label: here ? `${name} (owner)` : name,
          })),
          ...(byName ? [{ value: OTHER, label: 'somebody else, by name' }] : []),
        ]}
      />
      {chosen === OTHER && (
        <TextField
          name="toName"
          label="The name they sign in with"
          hint="Whether somebody has that name here is not shown: if so, they find your offer."
          required
        />
      )}
    </>
  );
}

function DayBack() {
  const kind: unknown = useWatch({ name: 'kind' });
  return kind === 'LOAN' ? <DateField name="backOn" label="To be back on" required /> : null;
}

function HealthNote() {
  return (
    <LongTextField
      name="healthNote"
      label="Health"
      hint="Illness in its tank or among its sibs, what was done about it, what it was kept with."
    />
  );
}

/** What of the record goes along, and what comes back of it. */
function GoesAlong() {
  return (
    <fieldset className={styles['group']}>
      <legend>Goes along with the record</legend>
      <TickField name="withScores" label="Scores and looks on score sheets" />
      <TickField name="withPhotos" label="Photos" />
      <TickField name="withNotes" label="Notes" />
      <TickField
        name="laterSpawns"
        label="I see when it spawns there"
        hint="Parents, day and counts, no more. They agree to it by accepting."
      />
    </fieldset>
  );
}

/** Shown wherever fish go to somebody else. */
function HandOverCaution() {
  return (
    <Caution>
      The law of your place says who may sell fish, give them away or send them, and how: ask your
      authority first. Send nothing that is ill. A newcomer belongs in quarantine, and some
      infections of fish pass to people through cuts.
    </Caution>
  );
}
