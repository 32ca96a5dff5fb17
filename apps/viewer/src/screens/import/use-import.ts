import type { FileText } from '@linewright/pedigree';
import { useState } from 'react';
import {
  BEGIN_IMPORT,
  type ImportPreview,
  type ImportResult,
  type ImportRun,
} from '../../api/import.js';
import { newId } from '../../api/new-id.js';
import { useSave } from '../../api/use-save.js';
import { useUnsaved } from '../../components/unsaved.js';
import type { ColumnChoice } from './import-columns.js';

export interface Source {
  fileName: string;
  text: string;
  encoding: FileText['encoding'] | null;
}

const choicesOf = ({ columns }: ImportPreview): ColumnChoice[] =>
  columns.map(({ header, role, traitId, traitName }) => ({ header, role, traitId, traitName }));

const inputOf = (
  purpose: 'LOOK' | 'TAKE',
  { fileName, text }: Source,
  columns: readonly ColumnChoice[] | null,
) => ({ id: newId(), purpose, fileName, text, columns: columns === null ? null : [...columns] });

/** What the server told last of the file: what it understood, what came of it, or that it is at it. */
function useAnswers() {
  const [source, setSource] = useState<Source | null>(null);
  const [preview, setPreview] = useState<ImportPreview | null>(null);
  const [columns, setColumns] = useState<readonly ColumnChoice[]>([]);
  const [result, setResult] = useState<ImportResult | null>(null);
  /** A large file: some process of the server is at it. */
  const [waiting, setWaiting] = useState<ImportRun | null>(null);
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
  const begin = (from: Source) => {
    setSource(from);
    setResult(null);
  };
  const forget = () => {
    setSource(null);
    setPreview(null);
    setResult(null);
    setWaiting(null);
  };
  return { source, preview, columns, setColumns, result, waiting, show, begin, forget };
}

/** An import from the choice of a file to its confirmation; looked at anew when a column is said to be another. */
export function useImport() {
  const answers = useAnswers();
  const { source, preview, columns, waiting, show } = answers;
  const [matched, setMatched] = useState(false);
  const looking = useSave(BEGIN_IMPORT);
  const confirming = useSave(BEGIN_IMPORT);
  const taking = waiting?.purpose === 'TAKE';
  // The file can be chosen again; what its columns are was said by hand.
  useUnsaved(matched && preview !== null && !taking && !confirming.saving);
  const look = async (from: Source, chosen: readonly ColumnChoice[] | null) => {
    answers.begin(from);
    if (chosen === null) setMatched(false);
    confirming.clear();
    const seen = await looking.save({ input: inputOf('LOOK', from, chosen) });
    if (seen !== null) show(seen.beginImport);
  };
  const match = (next: readonly ColumnChoice[]) => {
    if (source === null) return;
    answers.setColumns(next);
    setMatched(true);
    void look(source, next);
  };
  const restart = () => {
    answers.forget();
    looking.clear();
    confirming.clear();
  };
  const confirm = async () => {
    if (source === null) return;
    const saved = await confirming.save({ input: inputOf('TAKE', source, columns) });
    if (saved !== null) show(saved.beginImport);
  };
  return { ...answers, looking, confirming, taking, look, match, restart, confirm };
}

export type Import = ReturnType<typeof useImport>;
