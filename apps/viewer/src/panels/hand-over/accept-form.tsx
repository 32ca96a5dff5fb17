import { zodResolver } from '@hookform/resolvers/zod';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { ACCEPT_FISH, type HandOver } from '../../api/hand-overs.js';
import { useSave } from '../../api/use-save.js';
import { optionalText, optionalWholeNumber } from '../../components/field-rules.js';
import { LongTextField, NumberField, TextField } from '../../components/fields.js';
import { Caution } from '../../components/notice.js';
import { RecordForm } from '../../components/record-form.js';
import { partsWords } from '../../wording/hand-over-words.js';

const schema = z.object({
  quarantineDays: optionalWholeNumber,
  word: optionalText,
  tags: z.array(z.string()),
});

interface AcceptFormProps {
  handOvers: readonly HandOver[];
  onDone: () => void;
}

/** Takes offered fish: what comes along, the days in quarantine, and a word back. */
export function AcceptForm({ handOvers, onDone }: AcceptFormProps) {
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: { quarantineDays: '28', word: '', tags: handOvers.map(({ tag }) => tag) },
  });
  const { save, saving, problem } = useSave(ACCEPT_FISH);
  const [first] = handOvers;
  const tagTaken = problem?.fields.some(({ field }) => field === 'tags') ?? false;
  return (
    <RecordForm
      form={form}
      submit={handOvers.length === 1 ? 'Take the fish' : `Take the ${handOvers.length} fish`}
      saving={saving}
      problem={problem}
      onCancel={onDone}
      onSubmit={async ({ tags, ...said }) => {
        const other = handOvers.flatMap(({ id, tag }, k) => {
          const given = tags[k] ?? tag;
          return given === tag ? [] : [{ id, tag: given }];
        });
        const input = { ids: handOvers.map(({ id }) => id), ...said, tags: other };
        if ((await save({ input })) !== null) onDone();
      }}
    >
      {first !== undefined && <Agreed handOver={first} />}
      <NumberField
        name="quarantineDays"
        label="Days in quarantine"
        unit="days"
        hint="Three to four weeks is common practice; there is little evidence for an exact number. Blank: none."
      />
      <QuarantineCaution />
      {tagTaken &&
        handOvers.map(({ id, tag }, k) => (
          <TextField key={id} name={`tags.${k}`} label={`Tag of ${tag} with you`} required />
        ))}
      <LongTextField name="word" label="A word back" />
    </RecordForm>
  );
}

/** What taking it agrees to. */
function Agreed({ handOver }: { handOver: HandOver }) {
  const { kind, from, backOn, laterSpawnsSeen } = handOver;
  return (
    <ul className="lw-words">
      <li>
        {kind === 'LOAN'
          ? `The fish swims with you and stays the record of ${from.name}; it is to be back on ${backOn ?? ''}.`
          : `The fish and its record are yours from then on.`}
      </li>
      <li>You read {partsWords(handOver)}.</li>
      {laterSpawnsSeen && (
        <li>{from.name} sees when it spawns, with which partner, and the counts; no more.</li>
      )}
    </ul>
  );
}

/** Shown wherever a fish comes from elsewhere. */
export function QuarantineCaution() {
  return (
    <Caution>
      Keep a newcomer in its own water with its own net, and tend it last: it may carry what your
      fish do not have. A sign of disease starts the count again, and is a question for a vet. Some
      infections of fish pass to people through cuts: cover cuts, and wash afterwards.
    </Caution>
  );
}
