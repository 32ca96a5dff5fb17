import { Button } from '@mantine/core';
import { useState } from 'react';
import { PAST_IMPORTS, type PastImport } from '../../api/past-imports.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { MorePages } from '../../components/more-pages.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { plural, showTime } from '../../wording/figures.js';
import { TakeBack } from './take-back.js';

const nameOf = ({ fileName }: PastImport): string => fileName ?? 'a file (its name was not noted)';

/** Files that were imported, what each made, and the way to take one back as a whole. */
export function PastImports() {
  return (
    <Section title="Past imports">
      <p className="lw-words lw-quiet">
        Imported the wrong file? Take it back, correct the file, then import it again with the same
        tags.
      </p>
      <PastPage />
    </Section>
  );
}

interface PastPageProps {
  /** Where the page before ended, and how many imports were listed by then. */
  after?: string | null;
  before?: number;
}

function PastPage({ after = null, before = 0 }: PastPageProps) {
  const read = useRead(PAST_IMPORTS, { after });
  const [chosen, setChosen] = useState<PastImport | null>(null);
  const close = () => setChosen(null);
  return (
    <>
      <Shown read={read} what="the past imports">
        {({ pastImports }) =>
          pastImports.totalCount === 0 ? (
            <p>No file has been imported yet.</p>
          ) : (
            <>
              <PastTable imports={pastImports.edges.map(({ node }) => node)} onChoose={setChosen} />
              <MorePages
                page={pastImports}
                listed={before + pastImports.edges.length}
                what="imports"
                next={(cursor) => (
                  <PastPage after={cursor} before={before + pastImports.edges.length} />
                )}
              />
            </>
          )
        }
      </Shown>
      {chosen !== null && (
        <TakeBack
          id={chosen.id}
          what={`${nameOf(chosen)}, imported ${showTime(chosen.at)}: ${made(chosen)}`}
          onCancel={close}
          onDone={() => {
            close();
            read.reload();
          }}
        />
      )}
    </>
  );
}

interface PastTableProps {
  imports: readonly PastImport[];
  onChoose: (one: PastImport) => void;
}

function PastTable({ imports, onChoose }: PastTableProps) {
  return (
    <DataTable
      caption="Past imports"
      rows={imports}
      rowKey={({ id }) => id}
      columns={[
        { key: 'file', title: 'File', cell: (one) => nameOf(one) },
        { key: 'at', title: 'Imported', wideOnly: true, cell: (one) => showTime(one.at) },
        { key: 'by', title: 'By', wideOnly: true, cell: (one) => one.by },
        { key: 'made', title: 'Recorded', cell: made },
        {
          key: 'back',
          title: 'Take back',
          cell: (one) =>
            one.takenBackAt === null ? (
              <Button
                size="xs"
                aria-label={`Take back ${nameOf(one)}`}
                onClick={() => onChoose(one)}
              >
                Take back
              </Button>
            ) : (
              `Taken back ${showTime(one.takenBackAt)}: ${one.takenBackReason ?? ''}`
            ),
        },
      ]}
    />
  );
}

const words: readonly [keyof PastImport & ('spawns' | 'lines' | 'scores' | 'traits'), string][] = [
  ['spawns', 'spawn'],
  ['lines', 'line'],
  ['scores', 'score'],
  ['traits', 'trait'],
];

function made(one: PastImport): string {
  const others = words
    .filter(([field]) => one[field] > 0)
    .map(([field, word]) => plural(one[field], word));
  return [plural(one.fish, 'fish', 'fish'), ...others].join(', ');
}
