import type { MeasureChange, MeritRefusal, SizePoint } from '../api/merit.js';
import { DataTable } from '../components/data-table.js';
import { Empty } from '../components/states.js';
import { Why } from '../components/why.js';
import { InbreedingSize } from '../drawings/index.js';
import { loadColumnWord } from '../wording/load-words.js';
import {
  type ChangeWords,
  lossText,
  sizeChangeText,
  smallestChangeText,
} from '../wording/merit-words.js';
import { sizeCurve } from './cost-curve.js';

interface SizeChangeShownProps {
  /** What is measured, within a sentence: "the number of eggs". */
  what: string;
  /** On what it rests: "21 broods". */
  rests: string;
  words: ChangeWords;
  /** What the picture shows: "Eggs of each spawn". */
  shown: string;
  /** A size itself, as it is written. */
  sizeWords: (size: number) => string;
  /** Whether changes are shares of the size. */
  asShares?: boolean;
  load: {
    readonly changes: readonly MeasureChange[];
    readonly byAge: readonly MeasureChange[];
    readonly level: number | null;
    readonly points: readonly SizePoint[];
    readonly refusal: MeritRefusal | null;
  };
}

const isOfAge = ({ column }: MeasureChange): boolean => column === 'RECENT' || column === 'OLD';

/** What inbreeding does to a size, how sure that is, and the smallest loss that could have been seen at all. */
export function SizeChangeShown(props: SizeChangeShownProps) {
  const { what, rests, words, load } = props;
  const [first] = load.changes;
  if (first === undefined)
    return (
      <Empty>
        Cannot tell yet what inbreeding does to {what}: {load.refusal?.message}{' '}
        {load.refusal?.remedy}
      </Empty>
    );
  return (
    <>
      <Why about={`inbreeding and ${what}`} figure={sizeChangeText(first, what, words)}>
        <p>
          From {rests}. A size is taken to change evenly with F (Falconer &amp; Mackay 1996, chapter
          14), beside what else is known to move it; how much broods differ anyway is estimated from
          them (REML), and few broods make the interval wide (Student’s t).
        </p>
        <DataTable
          caption="Change at an F of 25 %"
          rows={[...load.changes, ...load.byAge.filter(isOfAge)]}
          rowKey={({ column }) => column}
          columns={[
            { key: 'name', title: 'Inbreeding', cell: ({ column }) => loadColumnWord[column] },
            {
              key: 'change',
              title: 'Change',
              number: true,
              cell: ({ atSibMating }) => words(atSibMating),
            },
            {
              key: 'band',
              title: '95 of 100',
              number: true,
              cell: ({ low, high }) => `${words(low)} to ${words(high)}`,
            },
            {
              key: 'least',
              title: 'Smallest loss seen',
              number: true,
              cell: ({ smallest }) => lossText(smallest, words),
            },
          ]}
        />
        <p>
          Later broods are often more inbred: what changed with time, such as water, food or your
          own hand, looks like inbreeding here.
        </p>
      </Why>
      <p className="lw-words">{smallestChangeText(first.smallest, words)}</p>
      <SizePicture {...props} change={first} />
    </>
  );
}

function SizePicture({
  what,
  shown,
  sizeWords,
  asShares = false,
  load: { level, points },
  change,
}: SizeChangeShownProps & { change: MeasureChange }) {
  if (level === null || points.length === 0) return null;
  const broods = points.map(({ spawnId, tag, young, size, counted }) => ({
    ...{ id: spawnId, tag, inbreeding: young, size, counted },
  }));
  return (
    <InbreedingSize
      title={`Inbreeding and ${what}`}
      what={shown}
      whose={loadColumnWord[change.column]}
      broods={broods}
      curve={sizeCurve(change, level, broods, asShares)}
      words={sizeWords}
    />
  );
}
