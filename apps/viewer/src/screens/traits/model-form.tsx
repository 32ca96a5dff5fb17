import { useForm } from 'react-hook-form';
import { RESET_TRAIT_MODEL, SET_TRAIT_MODEL, type TraitMerit } from '../../api/merit.js';
import { useSave } from '../../api/use-save.js';
import { ChoiceField, TickField } from '../../components/fields.js';
import { RecordForm } from '../../components/record-form.js';
import { Button } from '@mantine/core';
import {
  partWords,
  priorWords,
  type MeritPart,
  type PriorName,
} from '../../wording/merit-model-words.js';

interface ModelFormProps {
  traitId: string;
  settings: TraitMerit['settings'];
  onSaved: () => void;
  onCancel: () => void;
}

type Ticked = Record<MeritPart, boolean> & { prior: PriorName };

const parts = Object.keys(partWords) as MeritPart[];

const tickedIn = ({ parts: wished, prior }: TraitMerit['settings']): Ticked => ({
  ...(Object.fromEntries(parts.map((part) => [part, wished.includes(part)])) as Record<
    MeritPart,
    boolean
  >),
  prior,
});

const isUsual = ({ parts: wished, usualParts, prior, usualPrior }: TraitMerit['settings']) =>
  prior === usualPrior &&
  wished.length === usualParts.length &&
  wished.every((part) => usualParts.includes(part));

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
        const input = {
          ...{ traitId, revision, prior: ticked.prior },
          ...{ season: ticked.SEASON, age: ticked.AGE, sex: ticked.SEX, brood: ticked.BROOD },
          ...{ linesApart: ticked.LINES_APART, place: ticked.PLACE },
          ...{ looks: ticked.LOOKS, scorer: ticked.SCORER },
        };
        if ((await change.save({ input })) !== null) onSaved();
      }}
    >
      <p className="lw-words">
        A score holds more than what a fish passes on. Tick what should be set apart. What the
        scores cannot show, such as a season when all were scored in one, stays out by itself.
      </p>
      {parts.map((part) => (
        <TickField
          key={part}
          name={part}
          label={partWords[part].label}
          hint={partWords[part].hint}
        />
      ))}
      <ChoiceField
        name="prior"
        label="Assumed before any score"
        hint="With few fish this decides much: the trait’s page says how much."
        choices={(Object.keys(priorWords) as PriorName[]).map((prior) => ({
          value: prior,
          label: priorWords[prior].label,
        }))}
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
