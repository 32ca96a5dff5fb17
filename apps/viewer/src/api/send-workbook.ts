import { refusal, type Sent, told, UNREACHABLE } from './send-file.js';

/** One sheet of a workbook, as the text of a CSV file. */
export interface WorkbookSheet {
  name: string;
  text: string;
  rows: number;
  notes: string[];
}

/** Has the sheets of a workbook (.xlsx, .ods) read; the server keeps nothing of it. */
export async function sendWorkbook(file: Blob): Promise<Sent<WorkbookSheet[]>> {
  try {
    const answer = await fetch('/workbook-sheets', {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: file,
    });
    const text = await answer.text();
    if (!answer.ok) return { problem: told(refusal(text)) };
    return { answer: (JSON.parse(text) as { sheets: WorkbookSheet[] }).sheets };
  } catch {
    return { problem: told(UNREACHABLE) };
  }
}
