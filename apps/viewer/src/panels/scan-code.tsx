import { Button, FileButton, TextInput } from '@mantine/core';
import { useState } from 'react';
import { useClient } from 'urql';
import { SCANNED_CODE, type ScannedCode } from '../api/vessels.js';
import { problemFrom, type Problem } from '../api/problem.js';
import { ProblemNotice } from '../components/notice.js';
import { qrTextOf } from '../components/read-qr.js';
import styles from './scan-code.module.css';

interface ScanCodeProps {
  /** What was read stands for a vessel or a fish of this house, or for a code that is free. */
  onFound: (found: ScannedCode) => void;
  /** What needs no server: true when the code led somewhere. Asked first. */
  atHand?: (text: string) => boolean;
  label?: string;
}

const NO_CODE =
  'No code was found in that picture. Take it straight from the front, with the whole square and its light edge in it, or type the code.';

/** What became of the code read last, where it leads nowhere. */
function wordsOf({ ofAnotherHouse, houseName }: ScannedCode): string | null {
  if (!ofAnotherHouse) return null;
  const whose = houseName === null ? 'in another house' : `in the house of ${houseName}`;
  return `This label was made ${whose}: it is none of the vessels or fish here. Nothing was changed.`;
}

/** Asks the server what a code stands for. */
function useScanning({ onFound, atHand }: ScanCodeProps) {
  const client = useClient();
  const [words, setWords] = useState<string | null>(null);
  const [problem, setProblem] = useState<Problem | null>(null);
  const ask = async (text: string): Promise<void> => {
    if (text.trim() === '') return;
    setWords(null);
    setProblem(null);
    if (atHand?.(text) === true) return;
    const { data, error } = await client
      .query(SCANNED_CODE, { text }, { requestPolicy: 'network-only' })
      .toPromise();
    setProblem(error === undefined ? null : problemFrom(error));
    if (data == null) return;
    const nowhere = wordsOf(data.scannedCode);
    setWords(nowhere);
    if (nowhere === null) onFound(data.scannedCode);
  };
  return { ask, words, setWords, problem };
}

/**
 * A code read from a label by the camera, by a scanner that types, or typed by hand. A scanner ends with Enter, and the field is ready for
 * the next one at once.
 */
export function ScanCode(props: ScanCodeProps) {
  const { label = 'Scan or type a code' } = props;
  const [text, setText] = useState('');
  const { ask, words, setWords, problem } = useScanning(props);
  const read = async (file: File | null) => {
    if (file === null) return;
    const found = await qrTextOf(file);
    if (found === null) setWords(NO_CODE);
    else await ask(found);
  };
  return (
    <form
      className={styles['scan']}
      role="search"
      aria-label={label}
      onSubmit={(event) => {
        event.preventDefault();
        event.stopPropagation();
        void ask(text);
        setText('');
      }}
    >
      <TextInput
        label={label}
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
        autoComplete="off"
        autoCapitalize="characters"
        enterKeyHint="go"
      />
      <Button type="submit">Find</Button>
      <FileButton
        accept="image/*"
        capture="environment"
        inputProps={{ 'aria-label': 'Picture of a label' }}
        onChange={(file) => void read(file)}
      >
        {(props) => <Button {...props}>Camera</Button>}
      </FileButton>
      {words !== null && (
        <p role="alert" className={styles['words']}>
          {words}
        </p>
      )}
      <ProblemNotice problem={problem} />
    </form>
  );
}
