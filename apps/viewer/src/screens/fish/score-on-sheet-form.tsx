import { zodResolver } from '@hookform/resolvers/zod';
import { useMemo, useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { newId } from '../../api/new-id.js';
import {
  SCORE_ON_SHEET,
  type ScoreSheetRow,
  type SheetLine,
  type SheetScoring,
  type SheetVersion,
} from '../../api/score-sheets.js';
import { useSave } from '../../api/use-save.js';
import { optionalScore, optionalText, requiredDate } from '../../components/field-rules.js';
import { DateField, LongTextField, TextField } from '../../components/fields.js';
import { FieldRow, RecordForm } from '../../components/record-form.js';
import { today } from '../../wording/figures.js';
import { AgeAdvice, FaultTicks, RunningTotal, ScoreLine } from './score-lines.js';
import type { ScoredFish } from './scored-fish.js';

interface ScoreOnSheetFormProps {
  fish: ScoredFish;
  sheet: ScoreSheetRow;
  onSaved: (scoring: SheetScoring) => void;
  onCancel: () => void;
}

const schemaOf = (lines: readonly SheetLine[]) =>
  z.object({
    scoredOn: requiredDate,
    scorer: optionalText,
    note: optionalText,
    values: z.object(Object.fromEntries(lines.map((l) => [l.trait.id, optionalScore(l.trait)]))),
    faultIds: z.array(z.string()),
  });

type Look = z.output<ReturnType<typeof schemaOf>>;

const blankLook = (lines: readonly SheetLine[]) => ({
  scoredOn: today(),
  scorer: '',
  note: '',
  values: Object.fromEntries(lines.map((line) => [line.trait.id, ''])),
  faultIds: [] as string[],
});

/** Sends a look; its ids are made here, so that it is recorded once however often it is sent. */
function useSheetLook(fish: ScoredFish, sheet: ScoreSheetRow) {
  const { lines } = sheet.current;
  const { save, saving, problem } = useSave(SCORE_ON_SHEET);
  const [ids] = useState(() => ({
    look: newId(),
    values: new Map(lines.map((line) => [line.trait.id, newId()])),
  }));
  const scoresOf = (values: Look['values']) =>
    lines.flatMap(({ trait }) => {
      const value = values[trait.id] ?? null;
      const id = ids.values.get(trait.id) ?? null;
      return value === null ? [] : [{ id, traitId: trait.id, value }];
    });
  const keep = async ({ values, ...look }: Look): Promise<SheetScoring | null> => {
    const input = {
      ...{ id: ids.look, fishId: fish.id, ...look, scores: scoresOf(values) },
      ...{ sheetId: sheet.id, sheetVersion: sheet.version },
    };
    return (await save({ input }))?.scoreOnSheet ?? null;
  };
  return { keep, saving, problem };
}

/** All traits and faults of one look; saved at once, and once however often it is sent. */
export function ScoreOnSheetForm({ fish, sheet, onSaved, onCancel }: ScoreOnSheetFormProps) {
  const { lines } = sheet.current;
  const schema = useMemo(() => schemaOf(lines), [lines]);
  const form = useForm({ resolver: zodResolver(schema), defaultValues: blankLook(lines) });
  const { keep, saving, problem } = useSheetLook(fish, sheet);
  return (
    <RecordForm
      form={form}
      submit="Save scores"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async (look) => {
        const first = lines[0];
        const scored = lines.some(({ trait }) => (look.values[trait.id] ?? null) !== null);
        if (!scored && look.faultIds.length === 0 && first !== undefined) {
          form.setError(`values.${first.trait.id}`, {
            message: 'Score at least one trait, or mark a fault.',
          });
          return;
        }
        const saved = await keep(look);
        if (saved !== null) onSaved(saved);
      }}
    >
      <LookFields fish={fish} version={sheet.current} />
    </RecordForm>
  );
}

interface LookFieldsProps {
  fish: ScoredFish;
  version: SheetVersion;
}

function LookFields({ fish, version }: LookFieldsProps) {
  return (
    <>
      <FieldRow>
        <DateField name="scoredOn" label="Date" required />
        <TextField name="scorer" label="Scorer" hint="Blank: you." />
      </FieldRow>
      <AgeAdvice fish={fish} version={version} />
      <div>
        {version.lines.map((line) => (
          <ScoreLine key={line.trait.id} line={line} />
        ))}
      </div>
      {version.faults.length > 0 && <FaultTicks version={version} />}
      <LongTextField name="note" label="Note" />
      <RunningTotal version={version} />
    </>
  );
}
