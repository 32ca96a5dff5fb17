import { fileText, type FileText } from '@linewright/pedigree';
import { FileButton, Button, Textarea } from '@mantine/core';
import { useState } from 'react';
import { useUnsaved } from './unsaved.js';

interface TextFileProps {
  /** Accessible name of the file button: "Choose a CSV file". */
  choose: string;
  accept: string;
  pasteLabel: string;
  /** `encoding` is how the letters of a file were found to be written; `null` for pasted text. */
  onText: (name: string, text: string, encoding: FileText['encoding'] | null) => void;
  pastedName: string;
  busy: boolean;
}

async function readText(file: File): Promise<FileText> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  return fileText(bytes, (part, encoding) => new TextDecoder(encoding).decode(part));
}

/** A text from a file, or pasted. */
export function TextFile({ choose, accept, pasteLabel, onText, pastedName, busy }: TextFileProps) {
  const [pasted, setPasted] = useState('');
  const [given, setGiven] = useState('');
  useUnsaved(pasted.trim() !== '' && pasted !== given);
  return (
    <div className="lw-form">
      <div className="lw-form-buttons">
        <FileButton
          accept={accept}
          inputProps={{ 'aria-label': choose }}
          onChange={(file) => {
            if (file !== null)
              void readText(file).then(({ text, encoding }) => onText(file.name, text, encoding));
          }}
        >
          {(props) => (
            <Button {...props} className="lw-primary" loading={busy}>
              {choose}
            </Button>
          )}
        </FileButton>
      </div>
      <Textarea
        label={pasteLabel}
        minRows={3}
        maxRows={10}
        value={pasted}
        onChange={(event) => setPasted(event.currentTarget.value)}
        styles={{ input: { fontFamily: 'var(--lw-mono)', fontSize: 13 } }}
      />
      <div className="lw-form-buttons">
        <Button
          disabled={pasted.trim() === ''}
          loading={busy}
          onClick={() => {
            setGiven(pasted);
            onText(pastedName, pasted, null);
          }}
        >
          Look at the pasted text
        </Button>
      </div>
    </div>
  );
}
