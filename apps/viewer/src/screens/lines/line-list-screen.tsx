import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { LINES } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { NewLineForm } from './line-form.js';
import type { Column } from '../../components/data-table.js';
import type { ResultOf } from '../../api/graphql.js';

export function LineListScreen() {
  const read = useRead(LINES, {});
  const [adding, setAdding] = useState(false);
  return (
    <Screen
      title="Lines"
      actions={
        <>
          <Link to="/relationship">Relationship map</Link>
          <Button className="lw-primary" onClick={() => setAdding(true)}>
            New line
          </Button>
        </>
      }
    >
      <Shown read={read} what="the lines">
        {({ lines }) =>
          lines.length === 0 ? (
            <Empty>
              No line yet. A line is a stock bred towards one goal; give it a short code, and the
              tags of its fish begin with it. An import makes the lines it names.
            </Empty>
          ) : (
            <DataTable
              caption="Lines"
              rows={lines}
              rowKey={(line) => line.id}
              columns={lineColumns()}
            />
          )
        }
      </Shown>
      <Sheet title="New line" opened={adding} onClose={() => setAdding(false)}>
        <NewLineForm onSaved={() => setAdding(false)} onCancel={() => setAdding(false)} />
      </Sheet>
    </Screen>
  );
}

function lineColumns(): readonly Column<ResultOf<typeof LINES>['lines'][number]>[] {
  return [
    {
      key: 'line',
      title: 'Line',
      cell: (line) => (
        <>
          <Link to={`/lines/${line.id}`}>
            {line.code} · {line.name}
          </Link>
          {line.goal !== null && <div className="lw-quiet">{line.goal}</div>}
        </>
      ),
    },
    {
      key: 'person',
      title: 'Kept by',
      wideOnly: true,
      cell: (line) => line.person.name,
    },
    {
      key: 'health',
      title: 'Kinship',
      cell: (line) => (
        <Link to={`/lines/${line.id}/health`} aria-label={`Health of line ${line.code}`}>
          health
        </Link>
      ),
    },
    { key: 'use', title: 'In use', number: true, cell: (line) => line.inUseCount },
    { key: 'fish', title: 'Fish', number: true, cell: (line) => line.fishCount },
    { key: 'spawns', title: 'Spawns', number: true, cell: (line) => line.spawnCount },
  ];
}
