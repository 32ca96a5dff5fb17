import { useState } from 'react';
import {
  BEGIN_IMPORT,
  type ImportPreview,
  type ImportRepairs,
  type ImportResult,
  type ImportRun,
} from '../../api/import.js';
import { newId } from '../../api/new-id.js';
import type { Problem } from '../../api/problem.js';
import { useSave } from '../../api/use-save.js';
import { useUnsaved } from '../../components/unsaved.js';
import type { ColumnChoice } from './import-columns.js';
import { openFile, type Source } from './open-file.js';
import { nothingDecided, repairsInput } from './repairs.js';

const choicesOf = ({ columns }: ImportPreview): ColumnChoice[] =>
  columns.map(({ header, role, traitId, traitName }) => ({ header, role, traitId, traitName }));

/** What is said about a file: what its columns are, and what was decided. */
interface Decisions {
  columns: readonly ColumnChoice[];
  repairs: ImportRepairs;
}

const inputOf = (
  purpose: 'LOOK' | 'TAKE',
  { fileName, text }: Source,
  decisions: Decisions | null,
) => ({
  ...{ id: newId(), purpose, fileName, text },
  columns: decisions === null ? null : [...decisions.columns],
  repairs: decisions === null ? null : repairsInput(decisions.repairs),
});

/** What the server told last of the file: what it understood, what came of it, or that it is at it. */
function useAnswers() {
  const [source, setSource] = useState<Source | null>(null);
  const [preview, setPreview] = useState<ImportPreview | null>(null);
  const [columns, setColumns] = useState<readonly ColumnChoice[]>([]);
  const [repairs, setRepairs] = useState<ImportRepairs>(nothingDecided);
  const [result, setResult] = useState<ImportResult | null>(null);
  /** A large file: some process of the server is at it. */
  const [waiting, setWaiting] = useState<ImportRun | null>(null);
  const show = (run: ImportRun) => {
    setWaiting(run.preview === null && run.result === null ? run : null);
    if (run.preview !== null) {
      setPreview(run.preview);
      setColumns(choicesOf(run.preview));
      setRepairs(run.preview.repairs);
    }
    if (run.result !== null) {
      setResult(run.result);
      setPreview(null);
      setSource(null);
    }
  };
  const begin = (from: Source) => {
    setSource(from);
    setResult(null);
  };
  const forget = () => {
    setSource(null);
    setPreview(null);
    setResult(null);
    setWaiting(null);
    setRepairs(nothingDecided);
  };
  const said = { columns, setColumns, repairs, setRepairs };
  return { source, preview, result, waiting, show, begin, forget, ...said };
}

/** Opening a file: a workbook is read by the server first. */
function useOpening() {
  const [opening, setOpening] = useState(false);
  const [notOpened, setNotOpened] = useState<Problem | null>(null);
  const open = async (file: File): Promise<Source | null> => {
    setOpening(true);
    setNotOpened(null);
    const opened = await openFile(file);
    setOpening(false);
    if ('answer' in opened) return opened.answer;
    setNotOpened(opened.problem);
    return null;
  };
  return { opening, notOpened, open };
}

/** An import from the choice of a file to its confirmation; looked at again after each decision. */
export function useImport() {
  const answers = useAnswers();
  const { source, preview, columns, repairs, waiting, show } = answers;
  const { opening, notOpened, open } = useOpening();
  const [decided, setDecided] = useState(false);
  const looking = useSave(BEGIN_IMPORT);
  const confirming = useSave(BEGIN_IMPORT);
  const taking = waiting?.purpose === 'TAKE';
  // The file can be chosen again; what was decided about it was said by hand.
  useUnsaved(decided && preview !== null && !taking && !confirming.saving);
  const look = async (from: Source, decisions: Decisions | null) => {
    answers.begin(from);
    if (decisions === null) setDecided(false);
    confirming.clear();
    const seen = await looking.save({ input: inputOf('LOOK', from, decisions) });
    if (seen !== null) show(seen.beginImport);
  };
  const decide = (next: Partial<Decisions>) => {
    if (source === null) return;
    const decisions = { columns, repairs, ...next };
    answers.setColumns(decisions.columns);
    answers.setRepairs(decisions.repairs);
    setDecided(true);
    void look(source, decisions);
  };
  const choose = async (file: File) => {
    const from = await open(file);
    if (from !== null) await look(from, null);
  };
  const restart = () => {
    answers.forget();
    looking.clear();
    confirming.clear();
  };
  const confirm = async () => {
    if (source === null) return;
    const saved = await confirming.save({ input: inputOf('TAKE', source, { columns, repairs }) });
    if (saved !== null) show(saved.beginImport);
  };
  const steps = { look, decide, choose, restart, confirm };
  return { ...answers, opening, notOpened, looking, confirming, taking, ...steps };
}

export type Import = ReturnType<typeof useImport>;
