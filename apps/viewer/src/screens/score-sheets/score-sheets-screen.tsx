import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { newId } from '../../api/new-id.js';
import {
  SCORE_SHEETS,
  SHEET_STARTS,
  START_SHEET,
  type ScoreSheetRow,
} from '../../api/score-sheets.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { useOfTheHouse } from '../../session/may.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { windowText } from '../../wording/sheet-words.js';
import { SheetForm } from './sheet-form.js';
import styles from './score-sheets-screen.module.css';
import type { Column } from '../../components/data-table.js';
import type { ResultOf } from '../../api/graphql.js';

/** The person's score sheets, and ways to begin one. */
export function ScoreSheetsScreen() {
  const ofTheHouse = useOfTheHouse();
  const read = useRead(SCORE_SHEETS, {});
  const [open, setOpen] = useState<'new' | 'start' | null>(null);
  const navigate = useNavigate();
  const made = (id: string) => void navigate(`/score-sheets/${id}`);
  return (
    <Screen
      title="Score sheets"
      lead="Traits and faults scored together. You set the weights and points."
      actions={
        ofTheHouse && (
          <>
            <Button className="lw-primary" onClick={() => setOpen('new')}>
              New sheet
            </Button>
            <Button onClick={() => setOpen('start')}>Start from…</Button>
          </>
        )
      }
    >
      <Shown read={read} what="the score sheets">
        {({ scoreSheets }) =>
          scoreSheets.length === 0 ? (
            <Empty>
              No sheet yet. Put together what you score on one day, or start from what is commonly
              scored at each age and change it. Fish are scored on their own pages.
            </Empty>
          ) : (
            <SheetTable sheets={scoreSheets} />
          )
        }
      </Shown>
      <Sheet
        title="New score sheet"
        opened={open === 'new'}
        onClose={() => setOpen(null)}
        size={720}
      >
        <SheetForm sheet={null} onSaved={made} onCancel={() => setOpen(null)} />
      </Sheet>
      <Sheet title="Start from" opened={open === 'start'} onClose={() => setOpen(null)} size={640}>
        <Starts onMade={made} />
      </Sheet>
    </Screen>
  );
}

function SheetTable({ sheets }: { sheets: readonly ScoreSheetRow[] }) {
  return (
    <DataTable
      caption="Score sheets"
      rows={sheets}
      rowKey={(sheet) => sheet.id}
      columns={sheetColumns()}
    />
  );
}

function sheetColumns(): readonly Column<ScoreSheetRow>[] {
  return [
    {
      key: 'name',
      title: 'Sheet',
      cell: (sheet) => (
        <>
          <Link to={`/score-sheets/${sheet.id}`}>{sheet.name}</Link>
          <div className="lw-quiet">
            {sheet.current.lines.map(({ trait }) => trait.name).join(', ')}
          </div>
        </>
      ),
    },
    {
      key: 'age',
      title: 'Age',
      unbroken: true,
      cell: ({ current }) => windowText(current.fromAgeDays, current.toAgeDays),
    },
    {
      key: 'weights',
      title: 'Weights',
      wideOnly: true,
      cell: ({ current }) =>
        current.lines.every((line) => line.weight === null) ? 'none: all equal' : 'yours',
    },
    {
      key: 'faults',
      title: 'Faults',
      number: true,
      wideOnly: true,
      cell: ({ current }) => current.faults.length,
    },
    { key: 'version', title: 'Version', number: true, cell: (sheet) => sheet.version },
  ];
}

function Starts({ onMade }: { onMade: (id: string) => void }) {
  const read = useRead(SHEET_STARTS, {});
  const { save, saving, problem } = useSave(START_SHEET);
  const [id] = useState(newId);
  return (
    <Shown read={read} what="the starting sheets">
      {({ sheetStarts }) => (
        <>
          <p className="lw-words">
            What is commonly scored at each age. None of it is a rule: every trait, fault, class and
            age can be changed, and weights and points start empty. Traits that you do not have yet
            are defined for you; yours with the same key are used as they are.
          </p>
          <ProblemNotice problem={problem} />
          <ul className={styles['start-list']}>
            {sheetStarts.map((start) => (
              <StartItem
                key={start.key}
                start={start}
                saving={saving}
                save={save}
                id={id}
                onMade={onMade}
              />
            ))}
          </ul>
        </>
      )}
    </Shown>
  );
}

interface StartItemProps {
  start: ResultOf<typeof SHEET_STARTS>['sheetStarts'][number];
  saving: boolean;
  save: (variables: {
    input: { start: string; name?: string | null; id?: string | null };
  }) => Promise<{ startScoreSheet: { id: string } } | null>;
  id: string;
  onMade: (id: string) => void;
}

function StartItem({ start, saving, save, id, onMade }: StartItemProps) {
  return (
    <li>
      <strong>{start.name}</strong>
      <p>{start.description}</p>
      <p className="lw-quiet">
        {start.traitNames.join(', ')}. Faults:{' '}
        {start.faults.map((fault) => fault.name.toLowerCase()).join(', ')}.
      </p>
      <Button
        disabled={saving}
        aria-label={`Start from ${start.name}`}
        onClick={async () => {
          const saved = await save({ input: { id, start: start.key } });
          if (saved !== null) onMade(saved.startScoreSheet.id);
        }}
      >
        Start from this
      </Button>
    </li>
  );
}
