import { Button } from '@mantine/core';
import { Link } from 'react-router';
import type { ImportPreview, ImportResult } from '../../api/import.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { TextFile } from '../../components/text-file.js';
import { plural } from '../../wording/figures.js';
import { ImportColumns } from './import-columns.js';
import { ImportEncoding } from './import-encoding.js';
import { ImportHistory } from './import-history.js';
import { ImportProblems } from './import-problems.js';
import { ImportUnderWay } from './import-under-way.js';
import { importSentence } from './import-words.js';
import { PastImports } from './past-imports.js';
import { useImport, type Import, type Source } from './use-import.js';

/** A CSV file, its matched columns, what is wrong with it, and one confirmation: all rows or none. */
export function ImportScreen() {
  const run = useImport();
  const { source, preview, result, waiting, looking, taking } = run;
  const asksForFile = preview === null && waiting === null;
  return (
    <Screen
      title="Import"
      lead="A CSV pedigree: one fish per row, rows in any order."
      actions={asksForFile ? undefined : <Button onClick={run.restart}>Another file</Button>}
    >
      {result !== null && <Imported result={result} />}
      <ProblemNotice problem={looking.problem} />
      {waiting !== null && !taking && <ImportUnderWay run={waiting} onAnswer={run.show} />}
      {asksForFile && <ChooseFile looking={looking.saving} onFile={run.look} />}
      {preview !== null && source !== null && (
        <>
          {!taking && <Understood run={run} preview={preview} source={source} />}
          <ConfirmSection run={run} preview={preview} />
        </>
      )}
    </Screen>
  );
}

interface ChooseFileProps {
  looking: boolean;
  onFile: Import['look'];
}

function ChooseFile({ looking, onFile }: ChooseFileProps) {
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
        busy={looking}
        onText={(fileName, text, encoding) => void onFile({ fileName, text, encoding }, null)}
      />
      <ImportHistory />
      <PastImports />
    </>
  );
}

interface UnderstoodProps {
  run: Import;
  preview: ImportPreview;
  source: Source;
}

/** What was understood of the file, and what is wrong with it. */
function Understood({ run, preview, source }: UnderstoodProps) {
  return (
    <>
      <ImportColumns
        preview={preview}
        columns={run.columns}
        busy={run.looking.saving || run.waiting !== null}
        onChange={run.match}
      />
      <ImportEncoding text={source.text} encoding={source.encoding} />
      <ImportProblems preview={preview} />
    </>
  );
}

interface ConfirmProps {
  run: Import;
  preview: ImportPreview;
}

function ConfirmSection({ run, preview }: ConfirmProps) {
  return (
    <Section title="Confirm">
      <ProblemNotice problem={run.confirming.problem} />
      <p>
        {preview.ready
          ? `${importSentence(preview)} All of it is saved together, or nothing.`
          : `Nothing can be saved yet: correct ${plural(preview.problemCount, 'problem')} in the file (or choose other columns), then look at it again.`}
      </p>
      {run.taking && run.waiting !== null ? (
        <ImportUnderWay
          key={run.waiting.id}
          run={run.waiting}
          whileGoing="You can leave this page: it goes on, and you find it here when you come back."
          onAnswer={run.show}
        />
      ) : (
        <ConfirmButtons run={run} preview={preview} />
      )}
    </Section>
  );
}

function ConfirmButtons({ run, preview }: ConfirmProps) {
  const { looking, confirming, waiting } = run;
  return (
    <div className="lw-form-buttons">
      <Button
        className="lw-primary"
        disabled={!preview.ready || looking.saving || waiting !== null}
        loading={confirming.saving}
        onClick={() => void run.confirm()}
      >
        Import {plural(preview.rowCount - preview.skippedRows, 'row')}
      </Button>
      <Button onClick={run.restart}>Cancel</Button>
    </div>
  );
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
