import { lettersToCheck, type TextEncoding } from '@linewright/pedigree';
import { Button, NativeSelect } from '@mantine/core';
import type { ImportPreview, ImportRepairs } from '../../api/import.js';
import { Section } from '../../components/section.js';
import { plural, showTime } from '../../wording/figures.js';
import styles from './import.module.css';
import { atSheet, inEncoding, type Source } from './open-file.js';
import { nothingDecided } from './repairs.js';
import type { Import } from './use-import.js';

const encodings: Record<TextEncoding, string> = {
  'UTF-8': 'UTF-8',
  'UTF-16LE': 'UTF-16',
  'UTF-16BE': 'UTF-16, big-endian',
  'Windows-1252': 'Windows-1252 (Western European)',
};

const separators: Record<ImportPreview['separator'], string> = {
  COMMA: 'a comma',
  SEMICOLON: 'a semicolon',
  TAB: 'a tab',
};

const options = <Key extends string>(words: Record<Key, string>) =>
  Object.entries<string>(words).map(([value, label]) => ({ value, label }));

interface ReadAsProps {
  run: Import;
  preview: ImportPreview;
  source: Source;
}

/** How the file was opened: its sheet, letters and separator, what a like file taught, and what can be chosen otherwise. */
export function ReadAs({ run, preview, source }: ReadAsProps) {
  const change = (part: Partial<ImportRepairs>) =>
    run.decide({ repairs: { ...run.repairs, ...part } });
  return (
    <Section title="How the file was read">
      {preview.remembered !== null && <Remembered run={run} remembered={preview.remembered} />}
      <div className={styles['choices']}>
        <Opened run={run} source={source} />
        {source.workbook === null && (
          <NativeSelect
            label="Separator between cells"
            value={preview.separator}
            data={options(separators)}
            onChange={(event) =>
              change({ separator: event.currentTarget.value as ImportPreview['separator'] })
            }
          />
        )}
        {preview.days?.order != null && preview.days.open > 0 && (
          <DayOrder days={preview.days} onChange={(dayOrder) => change({ dayOrder })} />
        )}
        {preview.unmarked > 0 && (
          <NativeSelect
            label={`${plural(preview.unmarked, 'fish is', 'fish are')} not marked as in use`}
            description="Fish that are not in use stay out of pairing."
            value={run.repairs.unmarked ?? 'UNSORTED'}
            data={[
              { value: 'UNSORTED', label: 'not in use until I say so' },
              { value: 'KEEPER', label: 'all of them are in use' },
            ]}
            onChange={(event) =>
              change({ unmarked: event.currentTarget.value as 'UNSORTED' | 'KEEPER' })
            }
          />
        )}
      </div>
      <Letters text={source.text} />
      {source.workbook?.sheets[source.workbook.at]?.notes.map((note) => (
        <p key={note} className="lw-words">
          {note}
        </p>
      ))}
    </Section>
  );
}

function Remembered({
  run,
  remembered,
}: {
  run: Import;
  remembered: NonNullable<ImportPreview['remembered']>;
}) {
  return (
    <p className="lw-words">
      Read like <strong>{remembered.fileName}</strong>, imported {showTime(remembered.at)}, which
      had the same columns.{' '}
      <Button size="xs" onClick={() => run.decide({ columns: [], repairs: nothingDecided })}>
        Read it without that
      </Button>
    </p>
  );
}

function Opened({ run, source }: { run: Import; source: Source }) {
  const { workbook, letters } = source;
  if (workbook !== null) {
    return (
      <NativeSelect
        label="Sheet"
        value={workbook.at}
        data={workbook.sheets.map(({ name, rows }, at) => ({
          value: String(at),
          label: `${name} (${plural(rows, 'row')})`,
        }))}
        onChange={(event) =>
          void run.look(atSheet(source, Number(event.currentTarget.value)), null)
        }
      />
    );
  }
  if (letters === null) return null;
  return (
    <NativeSelect
      label="Letters are read as"
      value={letters.encoding}
      data={options(encodings)}
      onChange={(event) => {
        const from = inEncoding(source, event.currentTarget.value as TextEncoding);
        const { columns, repairs } = run;
        // Headers may be spelt otherwise then: what was chosen for them is asked again.
        void run.look(from, from.text === source.text ? { columns, repairs } : null);
      }}
    />
  );
}

interface DayOrderProps {
  days: NonNullable<ImportPreview['days']>;
  onChange: (order: NonNullable<ImportRepairs['dayOrder']>) => void;
}

function DayOrder({ days, onChange }: DayOrderProps) {
  return (
    <NativeSelect
      label="In dates, what comes first"
      description={
        days.proof === null
          ? `In ${plural(days.open, 'date')} it makes a difference.`
          : `${days.proof} can be read in one way only, so ${plural(days.open, 'other date is', 'other dates are')} read like it.`
      }
      value={days.order ?? ''}
      data={[
        { value: 'DAY_FIRST', label: 'the day' },
        { value: 'MONTH_FIRST', label: 'the month' },
      ]}
      onChange={(event) =>
        onChange(event.currentTarget.value as NonNullable<ImportRepairs['dayOrder']>)
      }
    />
  );
}

/** The encoding is found, not known: some letters to look at. */
function Letters({ text }: { text: string }) {
  const letters = lettersToCheck(text);
  if (letters.length === 0) return null;
  return (
    <p className="lw-words">
      Check these words: <strong>{letters.join(', ')}</strong>. If letters are wrong, choose how
      they are read.
    </p>
  );
}
