import type { FileText } from '@linewright/pedigree';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import {
  BEGIN_IMPORT,
  type ImportPreview,
  type ImportResult,
  type ImportRun,
} from '../../api/exchange.js';
import { newId } from '../../api/new-id.js';
import { useSave, type SaveOf } from '../../api/use-save.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { TextFile } from '../../components/text-file.js';
import { useUnsaved } from '../../components/unsaved.js';
import { plural } from '../../wording/figures.js';
import { ImportColumns, type ColumnChoice } from './import-columns.js';
import { ImportEncoding } from './import-encoding.js';
import { ImportHistory } from './import-history.js';
import { ImportProblems } from './import-problems.js';
import { ImportUnderWay } from './import-under-way.js';
import { PastImports } from './past-imports.js';

interface Source {
  fileName: string;
  text: string;
  encoding: FileText['encoding'] | null;
}

const file = ({ fileName, text }: Source) => ({ fileName, text });

const choicesOf = ({ columns }: ImportPreview): ColumnChoice[] =>
  columns.map(({ header, role, traitId, traitName }) => ({ header, role, traitId, traitName }));

/** A CSV file, its matched columns, what is wrong with it, and one confirmation: all rows or none. */
export function ImportScreen() {
  const [source, setSource] = useState<Source | null>(null);
  const [preview, setPreview] = useState<ImportPreview | null>(null);
  const [columns, setColumns] = useState<readonly ColumnChoice[]>([]);
  const [matched, setMatched] = useState(false);
  const [result, setResult] = useState<ImportResult | null>(null);
  /** A large file: some process of the server is at it. */
  const [waiting, setWaiting] = useState<ImportRun | null>(null);
  const looking = useSave(BEGIN_IMPORT);
  const confirming = useSave(BEGIN_IMPORT);

  const show = (run: ImportRun) => {
    setWaiting(run.preview === null && run.result === null ? run : null);
    if (run.preview !== null) {
      setPreview(run.preview);
      setColumns(choicesOf(run.preview));
    }
    if (run.result !== null) {
      setResult(run.result);
      setPreview(null);
      setSource(null);
    }
  };
  const look = async (from: Source, chosen: readonly ColumnChoice[] | null) => {
    setSource(from);
    setResult(null);
    if (chosen === null) setMatched(false);
    confirming.clear();
    const columns = chosen === null ? null : [...chosen];
    const input = { id: newId(), purpose: 'LOOK' as const, ...file(from), columns };
    const seen = await looking.save({ input });
    if (seen !== null) show(seen.beginImport);
  };
  const restart = () => {
    setSource(null);
    setPreview(null);
    setResult(null);
    setWaiting(null);
    looking.clear();
    confirming.clear();
  };
  const confirm = async () => {
    if (source === null) return;
    const input = { id: newId(), purpose: 'TAKE' as const, ...file(source), columns: [...columns] };
    const saved = await confirming.save({ input });
    if (saved !== null) show(saved.beginImport);
  };
  const taking = waiting?.purpose === 'TAKE';
  // The file can be chosen again; what its columns are was said by hand.
  useUnsaved(matched && preview !== null && !taking && !confirming.saving);

  return (
    <Screen
      title="Import"
      lead="A CSV pedigree: one fish per row, rows in any order."
      actions={
        preview === null && waiting === null ? undefined : (
          <Button onClick={restart}>Another file</Button>
        )
      }
    >
      {result !== null && <Imported result={result} />}
      <ProblemNotice problem={looking.problem} />
      {waiting !== null && !taking && <ImportUnderWay run={waiting} onAnswer={show} />}
      {preview === null && waiting === null && <ChooseFile looking={looking} look={look} />}
      {preview !== null && source !== null && (
        <>
          {!taking && (
            <>
              <ImportColumns
                preview={preview}
                columns={columns}
                busy={looking.saving || (waiting !== null && !taking)}
                onChange={(next) => {
                  setColumns(next);
                  setMatched(true);
                  void look(source, next);
                }}
              />
              <ImportEncoding text={source.text} encoding={source.encoding} />
              <ImportProblems preview={preview} />
            </>
          )}
          <ConfirmSection
            confirming={confirming}
            preview={preview}
            taken={taking ? waiting : null}
            show={show}
            busy={looking.saving || waiting !== null}
            confirm={confirm}
            restart={restart}
          />
        </>
      )}
    </Screen>
  );
}

function ChooseFile({
  looking,
  look,
}: {
  looking: SaveOf<typeof BEGIN_IMPORT>;
  look: (from: Source, chosen: readonly ColumnChoice[] | null) => Promise<void>;
}) {
  return (
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
        onText={(fileName, text, encoding) => void look({ fileName, text, encoding }, null)}
      />
      <ImportHistory />
      <PastImports />
    </>
  );
}

function ConfirmSection({
  confirming,
  preview,
  taken,
  show,
  busy,
  confirm,
  restart,
}: {
  confirming: SaveOf<typeof BEGIN_IMPORT>;
  preview: ImportPreview;
  taken: ImportRun | null;
  show: (run: ImportRun) => void;
  busy: boolean;
  confirm: () => Promise<void>;
  restart: () => void;
}) {
  return (
    <Section title="Confirm">
      <ProblemNotice problem={confirming.problem} />
      <p>
        {preview.ready
          ? `${sentence(preview)} All of it is saved together, or nothing.`
          : `Nothing can be saved yet: correct ${plural(preview.problemCount, 'problem')} in the file (or choose other columns), then look at it again.`}
      </p>
      {taken !== null ? (
        <ImportUnderWay
          key={taken.id}
          run={taken}
          whileGoing="You can leave this page: it goes on, and you find it here when you come back."
          onAnswer={show}
        />
      ) : (
        <div className="lw-form-buttons">
          <Button
            className="lw-primary"
            disabled={!preview.ready || busy}
            loading={confirming.saving}
            onClick={() => void confirm()}
          >
            Import {plural(preview.rowCount - preview.skippedRows, 'row')}
          </Button>
          <Button onClick={restart}>Cancel</Button>
        </div>
      )}
    </Section>
  );
}

function sentence(preview: ImportPreview): string {
  const lines =
    preview.newLines.length === 0
      ? ''
      : `, ${plural(preview.newLines.length, 'new line')} (${preview.newLines.join(', ')})`;
  const skipped =
    preview.skippedRows === 0 ? '' : ` ${plural(preview.skippedRows, 'row')} not imported.`;
  return `${plural(preview.newFish, 'new fish', 'new fish')}, ${preview.knownFish} already recorded, ${plural(preview.newSpawns, 'new spawn')}, ${plural(preview.scores, 'score')}${lines}.${skipped}`;
}

function Imported({ result }: { result: ImportResult }) {
  return (
    <Done>
      <p>
        <strong>Imported.</strong> {plural(result.fish, 'fish', 'fish')},{' '}
        {plural(result.spawns, 'spawn')}, {plural(result.lines, 'line')},{' '}
        {plural(result.scores, 'score')}, {plural(result.traits, 'trait')}; {result.unchanged}{' '}
        unchanged
        {result.skippedRows > 0 &&
          `; ${plural(result.skippedRows, 'row')} not imported, because ${result.skippedRows === 1 ? 'it is not a fish' : 'they are not fish'}`}
        . <Link to="/fish">See the fish</Link>
      </p>
    </Done>
  );
}
