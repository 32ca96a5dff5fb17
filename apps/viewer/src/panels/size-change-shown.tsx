import type { MeasureChange, MeritRefusal } from '../api/merit.js';
import { DataTable } from '../components/data-table.js';
import { Empty } from '../components/states.js';
import { Why } from '../components/why.js';
import { loadColumnWord } from '../wording/load-words.js';
import { type ChangeWords, sizeChangeText, smallestChangeText } from '../wording/merit-words.js';

interface SizeChangeShownProps {
  /** What is measured, within a sentence: "the number of eggs". */
  what: string;
  /** On what it rests: "21 broods". */
  rests: string;
  words: ChangeWords;
  load: { readonly changes: readonly MeasureChange[]; readonly refusal: MeritRefusal | null };
}

/** What inbreeding does to a size, how sure that is, and the smallest loss that could have been seen at all. */
export function SizeChangeShown({ what, rests, words, load }: SizeChangeShownProps) {
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
          rows={load.changes}
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
              title: 'Smallest to be seen',
              number: true,
              cell: ({ smallest }) => words(-smallest),
            },
          ]}
        />
        <p>
          Later broods are often more inbred: what changed with time, such as water, food or your
          own hand, looks like inbreeding here.
        </p>
      </Why>
      <p className="lw-words">{smallestChangeText(first.smallest, words)}</p>
    </>
  );
}
