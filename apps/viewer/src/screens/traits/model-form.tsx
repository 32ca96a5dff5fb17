import { useForm } from 'react-hook-form';
import { RESET_TRAIT_MODEL, SET_TRAIT_MODEL, type TraitMerit } from '../../api/merit.js';
import { TRAITS, type Trait } from '../../api/traits.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { ChoiceField, TickField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { Button } from '@mantine/core';
import { partWords, priorWords, type PriorName } from '../../wording/merit-model-words.js';
import { isUsual, meritParts, settingsSent, type Ticked, tickedIn } from './model-settings.js';

interface ModelFormProps {
  traitId: string;
  settings: TraitMerit['settings'];
  onSaved: () => void;
  onCancel: () => void;
}

const priorChoices = (Object.keys(priorWords) as PriorName[]).map((value) => ({
  value,
  label: priorWords[value].label,
}));

/** What is set apart from what a fish passes on, and what was taken as likely before. */
export function ModelForm({ traitId, settings, onSaved, onCancel }: ModelFormProps) {
  const form = useForm<Ticked>({ defaultValues: tickedIn(settings) });
  const change = useSave(SET_TRAIT_MODEL);
  const back = useSave(RESET_TRAIT_MODEL);
  const { revision } = settings;
  return (
    <RecordForm
      form={form}
      submit="Save settings"
      saving={change.saving}
      problem={change.problem ?? back.problem}
      onCancel={onCancel}
      onSubmit={async (ticked) => {
        const input = { traitId, revision, ...settingsSent(ticked) };
        if ((await change.save({ input })) !== null) onSaved();
      }}
    >
      <p className="lw-words">
        A score holds more than what a fish passes on. Tick what should be set apart. What the
        scores cannot show, such as a season when all were scored in one, stays out by itself.
      </p>
      {meritParts.map((part) => (
        <TickField
          key={part}
          name={part}
          label={partWords[part].label}
          hint={partWords[part].hint}
        />
      ))}
      <BesideFields traitId={traitId} chosen={settings.besideTraitIds} />
      <ChoiceField
        name="prior"
        label="Assumed before any score"
        hint="With few fish this decides much: the trait’s page says how much."
        choices={priorChoices}
      />
      {!isUsual(settings) && (
        <Button
          type="button"
          loading={back.saving}
          onClick={() =>
            void back.save({ input: { traitId, revision } }).then((saved) => {
              if (saved !== null) onSaved();
            })
          }
        >
          Back to the usual settings
        </Button>
      )}
    </RecordForm>
  );
}

/** Own traits whose scores of the same fish may be corrected for. */
function BesideFields({ traitId, chosen }: { traitId: string; chosen: readonly string[] }) {
  const read = useRead(TRAITS, { includeWithdrawn: false });
  const others = (read.data?.traits ?? []).filter(({ id }) => id !== traitId);
  if (others.length === 0) return null;
  return (
    <details className="lw-folded" open={chosen.length > 0}>
      <summary>Your own traits to correct for</summary>
      <p className="lw-words">
        For what you did to a fish and wrote down as a trait, such as a feed or a tank: at most
        five. Do not tick what is inherited itself: what both traits inherit together would then be
        taken away.
      </p>
      {others.map(({ id, name, kind }) => (
        <TickField
          key={id}
          name={`beside.${id}`}
          label={name}
          hint={isInLevels(kind) ? 'Level by level.' : 'As a number.'}
        />
      ))}
    </details>
  );
}

const isInLevels = (kind: Trait['kind']): boolean => kind === 'YES_NO' || kind === 'ORDINAL';
