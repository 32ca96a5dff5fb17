import { FileButton, Button, Textarea } from '@mantine/core';
import { useState } from 'react';
import { useUnsaved } from './unsaved.js';

interface TextFileProps {
  /** Accessible name of the file button: "Choose a CSV file". */
  choose: string;
  accept: string;
  pasteLabel: string;
  onFile: (file: File) => void;
  onText: (pasted: string) => void;
  busy: boolean;
}

/** A file, or a text that is pasted. */
export function TextFile({ choose, accept, pasteLabel, onFile, onText, busy }: TextFileProps) {
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
            if (file !== null) onFile(file);
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
        styles={{ input: { fontFamily: 'var(--lw-mono)', fontSize: '0.8125rem' } }}
      />
      <div className="lw-form-buttons">
        <Button
          disabled={pasted.trim() === ''}
          loading={busy}
          onClick={() => {
            setGiven(pasted);
            onText(pasted);
          }}
        >
          Look at the pasted text
        </Button>
      </div>
    </div>
  );
}
