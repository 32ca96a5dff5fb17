import { Button } from '@mantine/core';
import { useState } from 'react';
import type { FishFacts } from '../../api/fish.js';
import { FISH_SHOWS, type ShowResult, WITHDRAW_SHOW_RESULT } from '../../api/shows.js';
import { useRead } from '../../api/use-read.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { EmptyPart } from '../../components/empty-part.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { useMayAdd } from '../../session/may.js';
import { placingText } from '../../wording/show-words.js';
import { ShowForm } from './show-form.js';

type Opened =
  | { readonly what: 'record' }
  | { readonly what: 'correct' | 'withdraw'; readonly result: ShowResult };

/** What a fish won at shows, in the keeper's own classes. */
export function ShowsSection({ fish }: { fish: FishFacts }) {
  const read = useRead(FISH_SHOWS, { id: fish.id });
  const [opened, setOpened] = useState<Opened | null>(null);
  const mayAdd = useMayAdd();
  const close = () => setOpened(null);
  return (
    <Section
      title="Shows"
      act={mayAdd}
      actions={
        <Button size="xs" onClick={() => setOpened({ what: 'record' })}>
          Record a result
        </Button>
      }
    >
      <Shown read={read} what="the shows">
        {({ fish: { showResults } }) => (
          <>
            {showResults.length === 0 ? (
              <EmptyPart part="SCORES">
                Not shown yet. Classes are named in your own words.
              </EmptyPart>
            ) : (
              <DataTable
                caption="Shows"
                rows={showResults}
                rowKey={({ id }) => id}
                columns={[...columns, actions(mayAdd, setOpened)]}
              />
            )}
            <ShowSheets fish={fish} last={showResults[0]} opened={opened} onClose={close} />
          </>
        )}
      </Shown>
    </Section>
  );
}

const columns: readonly Column<ShowResult>[] = [
  { key: 'on', title: 'Day', unbroken: true, cell: ({ onDate }) => onDate },
  {
    key: 'show',
    title: 'Show and class',
    cell: (result) => (
      <>
        <strong>{result.show}</strong>
        <span className="lw-small">{result.class}</span>
        {result.note !== null && <span className="lw-small">{result.note}</span>}
      </>
    ),
  },
  { key: 'placing', title: 'Result', cell: placingText },
];

const actions = (mayAdd: boolean, onOpen: (opened: Opened) => void): Column<ShowResult> => ({
  key: 'do',
  changes: true,
  title: <span className="lw-heard">Actions</span>,
  cell: (result) =>
    mayAdd ? (
      <span className="lw-row-buttons">
        <button
          type="button"
          aria-label={`Correct ${result.show}, ${result.class}`}
          onClick={() => onOpen({ what: 'correct', result })}
        >
          Correct
        </button>
        <button
          type="button"
          aria-label={`Withdraw ${result.show}, ${result.class}`}
          onClick={() => onOpen({ what: 'withdraw', result })}
        >
          Withdraw
        </button>
      </span>
    ) : null,
});

interface ShowSheetsProps {
  fish: FishFacts;
  last: ShowResult | undefined;
  opened: Opened | null;
  onClose: () => void;
}

function ShowSheets({ fish, last, opened, onClose }: ShowSheetsProps) {
  return (
    <>
      <Sheet
        title={
          opened?.what === 'correct' ? `Correct a result of ${fish.tag}` : `Show of ${fish.tag}`
        }
        opened={opened !== null && opened.what !== 'withdraw'}
        onClose={onClose}
      >
        {opened?.what === 'correct' ? (
          <ShowForm fishId={fish.id} result={opened.result} onDone={onClose} />
        ) : (
          <ShowForm fishId={fish.id} lastClass={last?.class ?? ''} onDone={onClose} />
        )}
      </Sheet>
      {opened?.what === 'withdraw' && (
        <WithdrawRecord
          mutation={WITHDRAW_SHOW_RESULT}
          record={opened.result}
          title={`Withdraw a result of ${fish.tag}`}
          what={`the result at ${opened.result.show}`}
          onClose={onClose}
        />
      )}
    </>
  );
}
