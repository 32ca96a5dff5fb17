import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { SCORE_SHEETS, type ScoreSheetRow } from '../../api/score-sheets.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { useOfTheHouse } from '../../session/may.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { windowText } from '../../wording/sheet-words.js';
import { SheetForm } from './sheet-form.js';
import { SheetStarts } from './sheet-starts.js';
import type { Column } from '../../components/data-table.js';

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
        <SheetStarts onMade={made} />
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
