import { FileButton, Button, Textarea } from '@mantine/core';
import { useState } from 'react';

interface TextFileProps {
  /** Accessible name of the file button: "Choose a CSV file". */
  choose: string;
  accept: string;
  pasteLabel: string;
  onText: (name: string, text: string) => void;
  pastedName: string;
  busy: boolean;
}

/** A text from a file, or pasted. */
export function TextFile({ choose, accept, pasteLabel, onText, pastedName, busy }: TextFileProps) {
  const [pasted, setPasted] = useState('');
  return (
    <div className="lw-form">
      <div className="lw-form-buttons">
        <FileButton
          accept={accept}
          inputProps={{ 'aria-label': choose }}
          onChange={(file) => {
            if (file !== null) void file.text().then((text) => onText(file.name, text));
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
          onClick={() => onText(pastedName, pasted)}
        >
          Look at the pasted text
        </Button>
      </div>
    </div>
  );
}
