import { fileText, type TextEncoding } from '@linewright/pedigree';
import type { Sent } from '../../api/send-file.js';
import { sendWorkbook, type WorkbookSheet } from '../../api/send-workbook.js';

/** A file as it was chosen: a table of text, and where that came from. */
export interface Source {
  fileName: string;
  text: string;
  /** Of a text file: how its letters are read, and its bytes, to read them otherwise. */
  letters: { encoding: TextEncoding; bytes: Uint8Array } | null;
  /** Of a workbook: its sheets, and which of them is looked at. */
  workbook: { sheets: WorkbookSheet[]; at: number } | null;
}

const decode = (part: Uint8Array, encoding: 'UTF-8' | 'UTF-16LE' | 'UTF-16BE'): string =>
  new TextDecoder(encoding).decode(part);

/** The same file with its letters read in another way. */
export const inEncoding = (source: Source, encoding: TextEncoding): Source => {
  const bytes = source.letters?.bytes;
  if (bytes === undefined) return source;
  const { text } = fileText(bytes, decode, encoding);
  return { ...source, text, letters: { encoding, bytes } };
};

/** The same workbook, another sheet of it. */
export const atSheet = (source: Source, at: number): Source => ({
  ...source,
  text: source.workbook?.sheets[at]?.text ?? source.text,
  workbook: source.workbook === null ? null : { ...source.workbook, at },
});

export const pastedText = (text: string): Source => ({
  ...{ fileName: 'pasted.csv', text, letters: null, workbook: null },
});

/** ZIP files begin so: workbooks are such; and so do workbooks of before 2007, which are told about. */
const isWorkbook = (name: string, [a, b]: Uint8Array): boolean =>
  (a === 0x50 && b === 0x4b) || (a === 0xd0 && b === 0xcf) || /\.(xlsx|xlsm|ods|xls)$/i.test(name);

/** The sheet with most rows is the one with the fish, most likely. */
const longest = (sheets: readonly WorkbookSheet[]): number =>
  sheets.reduce((best, { rows }, at) => (rows > (sheets[best]?.rows ?? 0) ? at : best), 0);

/** Opens a file: text here, workbooks by the server. */
export async function openFile(file: File): Promise<Sent<Source>> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (!isWorkbook(file.name, bytes)) {
    const { text, encoding } = fileText(bytes, decode);
    return {
      answer: { fileName: file.name, text, letters: { encoding, bytes }, workbook: null },
    };
  }
  const sent = await sendWorkbook(file);
  if ('problem' in sent) return sent;
  const at = longest(sent.answer);
  return {
    answer: {
      fileName: file.name,
      text: sent.answer[at]?.text ?? '',
      letters: null,
      workbook: { sheets: sent.answer, at },
    },
  };
}
