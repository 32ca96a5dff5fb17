import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import {
  CONFIRM_IMPORT,
  PREVIEW_IMPORT,
  type ImportPreview,
  type ImportResult,
} from '../../api/exchange.js';
import { useSave } from '../../api/use-save.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { TextFile } from '../../components/text-file.js';
import { plural } from '../../wording/figures.js';
import { ImportColumns, type ColumnChoice } from './import-columns.js';
import { ImportProblems } from './import-problems.js';

interface Source {
  fileName: string;
  text: string;
}

const choicesOf = ({ columns }: ImportPreview): ColumnChoice[] =>
  columns.map(({ header, role, traitId, traitName }) => ({ header, role, traitId, traitName }));

/** A CSV file, its matched columns, what is wrong with it, and one confirmation: all rows or none. */
export function ImportScreen() {
  const [source, setSource] = useState<Source | null>(null);
  const [preview, setPreview] = useState<ImportPreview | null>(null);
  const [columns, setColumns] = useState<readonly ColumnChoice[]>([]);
  const [result, setResult] = useState<ImportResult | null>(null);
  const looking = useSave(PREVIEW_IMPORT);
  const confirming = useSave(CONFIRM_IMPORT);

  const look = async (from: Source, chosen: readonly ColumnChoice[] | null) => {
    setSource(from);
    setResult(null);
    confirming.clear();
    const seen = await looking.save({ ...from, columns: chosen === null ? null : [...chosen] });
    if (seen === null) return;
    setPreview(seen.previewImport);
    setColumns(choicesOf(seen.previewImport));
  };
  const restart = () => {
    setSource(null);
    setPreview(null);
    setResult(null);
    looking.clear();
    confirming.clear();
  };
  const confirm = async () => {
    if (source === null) return;
    const saved = await confirming.save({ ...source, columns: [...columns] });
    if (saved === null) return;
    setResult(saved.confirmImport);
    setPreview(null);
    setSource(null);
  };

  return (
    <Screen
      title="Import"
      lead="A CSV pedigree: one fish a row, rows in any order."
      actions={preview === null ? undefined : <Button onClick={restart}>Another file</Button>}
    >
      {result !== null && <Imported result={result} />}
      <ProblemNotice problem={looking.problem} />
      {preview === null && (
        <>
          <p className="lw-words">
            The first row names the columns: tag, sire, dam, sex, hatch date, line, and a column for
            each trait you scored. Nothing is saved until you have seen what was understood.
          </p>
          <TextFile
            choose="Choose a CSV file"
            accept=".csv,.tsv,.txt,text/csv,text/plain"
            pasteLabel="Or paste the rows"
            pastedName="pasted.csv"
            busy={looking.saving}
            onText={(fileName, text) => void look({ fileName, text }, null)}
          />
        </>
      )}
      {preview !== null && source !== null && (
        <>
          <ImportColumns
            preview={preview}
            columns={columns}
            busy={looking.saving}
            onChange={(next) => {
              setColumns(next);
              void look(source, next);
            }}
          />
          <ImportProblems preview={preview} />
          <Section title="Confirm">
            <ProblemNotice problem={confirming.problem} />
            <p>
              {preview.ready
                ? `${sentence(preview)} All rows are saved together, or none.`
                : `Nothing can be saved yet: mend ${plural(preview.problemCount, 'problem')} in the file (or choose other columns), then look at it again.`}
            </p>
            <div className="lw-form-buttons">
              <Button
                className="lw-primary"
                disabled={!preview.ready || looking.saving}
                loading={confirming.saving}
                onClick={() => void confirm()}
              >
                Import {plural(preview.rowCount, 'row')}
              </Button>
              <Button onClick={restart}>Cancel</Button>
            </div>
          </Section>
        </>
      )}
    </Screen>
  );
}

function sentence(preview: ImportPreview): string {
  const lines =
    preview.newLines.length === 0
      ? ''
      : `, ${plural(preview.newLines.length, 'new line')} (${preview.newLines.join(', ')})`;
  return `${plural(preview.newFish, 'new fish', 'new fish')}, ${preview.knownFish} known already, ${plural(preview.newSpawns, 'new spawn')}, ${plural(preview.scores, 'score')}${lines}.`;
}

function Imported({ result }: { result: ImportResult }) {
  return (
    <Done>
      <p>
        <strong>Imported.</strong> {plural(result.fish, 'fish', 'fish')},{' '}
        {plural(result.spawns, 'spawn')}, {plural(result.lines, 'line')},{' '}
        {plural(result.scores, 'score')}, {plural(result.traits, 'trait')}; {result.unchanged}{' '}
        unchanged. <Link to="/fish">See the fish</Link>
      </p>
    </Done>
  );
}
