import { zodResolver } from '@hookform/resolvers/zod';
import { useMemo, useState } from 'react';
import { useForm } from 'react-hook-form';
import { z } from 'zod';
import { newId } from '../../api/new-id.js';
import { SCORE_ON_SHEET, type ScoreSheetRow, type SheetScoring } from '../../api/score-sheets.js';
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

/** All traits and faults of one look; saved at once, and once however often it is sent. */
export function ScoreOnSheetForm({ fish, sheet, onSaved, onCancel }: ScoreOnSheetFormProps) {
  const { lines, faults } = sheet.current;
  const schema = useMemo(
    () =>
      z.object({
        scoredOn: requiredDate,
        scorer: optionalText,
        note: optionalText,
        values: z.object(
          Object.fromEntries(lines.map((l) => [l.trait.id, optionalScore(l.trait)])),
        ),
        faultIds: z.array(z.string()),
      }),
    [lines],
  );
  const form = useForm({
    resolver: zodResolver(schema),
    defaultValues: {
      scoredOn: today(),
      scorer: '',
      note: '',
      values: Object.fromEntries(lines.map((line) => [line.trait.id, ''])),
      faultIds: [] as string[],
    },
  });
  const { save, saving, problem } = useSave(SCORE_ON_SHEET);
  const [ids] = useState(() => ({
    look: newId(),
    values: new Map(lines.map((line) => [line.trait.id, newId()])),
  }));
  return (
    <RecordForm
      form={form}
      submit="Save scores"
      saving={saving}
      problem={problem}
      onCancel={onCancel}
      onSubmit={async ({ scoredOn, scorer, note, values, faultIds }) => {
        const entries = lines.flatMap(({ trait }) => {
          const value = values[trait.id] ?? null;
          return value === null
            ? []
            : [{ id: ids.values.get(trait.id) ?? null, traitId: trait.id, value }];
        });
        const first = lines[0];
        if (entries.length === 0 && faultIds.length === 0 && first !== undefined) {
          form.setError(`values.${first.trait.id}`, {
            message: 'Score at least one trait, or mark a fault.',
          });
          return;
        }
        const look = { id: ids.look, fishId: fish.id, scoredOn, scorer, note, entries, faultIds };
        const input = { ...look, sheetId: sheet.id, sheetVersion: sheet.version };
        const saved = await save({ input });
        if (saved !== null) onSaved(saved.scoreOnSheet);
      }}
    >
      <FieldRow>
        <DateField name="scoredOn" label="Date" required />
        <TextField name="scorer" label="Scorer" hint="Blank: you." />
      </FieldRow>
      <AgeAdvice fish={fish} version={sheet.current} />
      <div>
        {lines.map((line) => (
          <ScoreLine key={line.trait.id} line={line} />
        ))}
      </div>
      {faults.length > 0 && <FaultTicks version={sheet.current} />}
      <LongTextField name="note" label="Note" />
      <RunningTotal version={sheet.current} />
    </RecordForm>
  );
}
