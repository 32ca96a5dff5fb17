import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { ImportCause, ImportRepairs } from '../../api/import.js';
import { useUnsaved } from '../../components/unsaved.js';
import { plural } from '../../wording/figures.js';
import styles from './import.module.css';
import { withCell, withFish, withoutRow, withValue } from './repairs.js';

interface FaultyValueProps {
  cause: ImportCause;
  value: ImportCause['values'][number];
  repairs: ImportRepairs;
  busy: boolean;
  onRepair: (repairs: ImportRepairs) => void;
}

/** One wrong or doubtful value: where it stands, what it may have meant, and a field to mend it in place. */
export function FaultyValue({ cause, value, repairs, busy, onRepair }: FaultyValueProps) {
  const { column, byValue, code } = cause;
  const line = value.lines[0] ?? 1;
  const mend = (to: string): void => {
    if (column === null) return;
    onRepair(
      byValue && value.value !== null
        ? withValue(repairs, column, value.value, to)
        : withCell(repairs, line, column, to),
    );
  };
  return (
    <li>
      <strong>{value.value ?? 'nothing'}</strong>
      {value.count > 1 && ` (${plural(value.count, 'time')})`}, line{' '}
      {value.lines.join(', ') + (value.lines.length < value.count ? ' …' : '')}
      {value.row !== '' && <div className="lw-quiet">{value.row}</div>}
      <div className={styles['mend']}>
        {column !== null && (
          <Mend value={value.value ?? ''} column={column} line={line} busy={busy} onMend={mend} />
        )}
        {column !== null &&
          value.offers.map((offer) => (
            <Button key={offer} size="xs" disabled={busy} onClick={() => mend(offer)}>
              Did you mean “{offer}”?
            </Button>
          ))}
        {code === 'IMPORT_SUMMARY_ROW' && (
          <Button size="xs" disabled={busy} onClick={() => onRepair(withFish(repairs, line))}>
            It is a fish
          </Button>
        )}
        {!byValue && code !== 'IMPORT_SUMMARY_ROW' && (
          <Button size="xs" disabled={busy} onClick={() => onRepair(withoutRow(repairs, line))}>
            Leave line {line} out
          </Button>
        )}
      </div>
    </li>
  );
}

interface MendProps {
  value: string;
  column: string;
  line: number;
  busy: boolean;
  onMend: (to: string) => void;
}

function Mend({ value, column, line, busy, onMend }: MendProps) {
  const [typed, setTyped] = useState(value);
  useUnsaved(typed !== value);
  return (
    <>
      <TextInput
        size="xs"
        aria-label={`${column} of line ${line}`}
        value={typed}
        onChange={(event) => setTyped(event.currentTarget.value)}
      />
      <Button size="xs" disabled={busy || typed === value} onClick={() => onMend(typed.trim())}>
        Mend
      </Button>
    </>
  );
}
