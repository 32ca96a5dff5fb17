import { EXAMPLE_FILE } from '@linewright/repair';
import { Button } from '@mantine/core';
import { Link } from 'react-router';
import type { ImportPreview, ImportResult } from '../../api/import.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { TextFile } from '../../components/text-file.js';
import { plural } from '../../wording/figures.js';
import { DecidedSoFar, ImportCauses, ImportDoubts } from './import-causes.js';
import { ImportColumns } from './import-columns.js';
import { ImportHistory } from './import-history.js';
import { ImportUnderWay } from './import-under-way.js';
import { importSentence } from './import-words.js';
import { pastedText, type Source } from './open-file.js';
import { PastImports } from './past-imports.js';
import { ReadAs } from './read-as.js';
import { useImport, type Import } from './use-import.js';

const EXAMPLE = `data:text/csv;charset=utf-8,${encodeURIComponent(EXAMPLE_FILE.text)}`;

/** A file, how it was read, what is wrong with it by its causes, and one confirmation: all rows or none. */
export function ImportScreen() {
  const run = useImport();
  const { source, preview, result, waiting, looking, taking } = run;
  const asksForFile = preview === null && waiting === null;
  return (
    <Screen
      title="Import"
      lead="A table of your fish: one fish per row, rows in any order."
      actions={asksForFile ? undefined : <Button onClick={run.restart}>Another file</Button>}
    >
      {result !== null && <Imported result={result} />}
      <ProblemNotice problem={looking.problem} />
      {waiting !== null && !taking && <ImportUnderWay run={waiting} onAnswer={run.show} />}
      <ProblemNotice problem={run.notOpened} />
      {asksForFile && <ChooseFile run={run} />}
      {preview !== null && source !== null && (
        <>
          {!taking && <Understood run={run} preview={preview} source={source} />}
          <ConfirmSection run={run} preview={preview} />
        </>
      )}
    </Screen>
  );
}

function ChooseFile({ run }: { run: Import }) {
  return (
    <>
      <p className="lw-words">
        A sheet of a workbook (.xlsx, .ods) or a CSV file. The first row names the columns: tag,
        sire, dam, sex, hatch date, line, and a column for each trait you scored. What is written in
        another way is asked once for all rows. Nothing is saved until you have seen what was
        understood.
      </p>
      <p>
        <a href={EXAMPLE} download={EXAMPLE_FILE.name}>
          Download an example to start from
        </a>
      </p>
      <TextFile
        choose="Choose a file"
        accept=".csv,.tsv,.txt,.xlsx,.xlsm,.ods,text/csv,text/plain"
        pasteLabel="Or paste the rows"
        busy={run.opening || run.looking.saving}
        onFile={(file) => void run.choose(file)}
        onText={(pasted) => void run.look(pastedText(pasted), null)}
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
  const busy = run.looking.saving || run.waiting !== null;
  const repairing = {
    ...{ repairs: run.repairs, busy },
    onRepair: (repairs: Import['repairs']) => run.decide({ repairs }),
  };
  return (
    <>
      <ReadAs run={run} preview={preview} source={source} />
      <ImportColumns
        preview={preview}
        columns={run.columns}
        busy={busy}
        onChange={(columns) => run.decide({ columns })}
      />
      <ImportCauses causes={preview.causes} {...repairing} />
      <ImportDoubts causes={preview.doubts} {...repairing} />
      <DecidedSoFar {...repairing} />
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
          : `Nothing can be saved yet: ${plural(preview.causes.length, 'cause is', 'causes are')} to be settled above (${plural(preview.problemCount, 'problem')}). Your file stays as it is.`}
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
