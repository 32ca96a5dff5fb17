import { Button } from '@mantine/core';
import { useState } from 'react';
import type { SpawnFacts } from '../../api/spawns.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty } from '../../components/states.js';
import { plural } from '../../wording/figures.js';
import { lossWord } from '../../wording/words.js';
import { LossForm } from './loss-form.js';
import { useLogWithdrawal, type LogWithdrawal } from './use-log-withdrawal.js';

/** Fry that left without a record of their own: died, culled, placed, as counts with reasons. */
export function LossesSection({ spawn }: { spawn: SpawnFacts }) {
  const [open, setOpen] = useState(false);
  const withdrawal = useLogWithdrawal(spawn.id);
  const losses = [...spawn.losses].sort((a, b) => a.on.localeCompare(b.on));
  const total = losses.reduce((sum, loss) => sum + loss.number, 0);
  return (
    <Section
      title="Losses and culls"
      aside={total > 0 ? `${total} in all` : undefined}
      actions={
        <Button size="xs" onClick={() => setOpen(true)}>
          Record losses
        </Button>
      }
    >
      <LossTable losses={losses} withdrawal={withdrawal} />
      <Sheet
        title={`Record losses of spawn ${spawn.tag}`}
        opened={open}
        onClose={() => setOpen(false)}
      >
        <LossForm spawn={spawn} onClose={() => setOpen(false)} />
      </Sheet>
      {withdrawal.sheet}
    </Section>
  );
}

interface LossTableProps {
  losses: readonly SpawnFacts['losses'][number][];
  withdrawal: LogWithdrawal;
}

function LossTable({ losses, withdrawal }: LossTableProps) {
  if (losses.length === 0)
    return (
      <Empty>
        None recorded. Record fry that died, were culled or placed before they had a jar of their
        own.
      </Empty>
    );
  return (
    <DataTable
      caption="Losses and culls"
      rows={losses}
      rowKey={(loss) => loss.id}
      columns={lossColumns(withdrawal)}
    />
  );
}

function lossColumns(withdrawal: LogWithdrawal): readonly Column<SpawnFacts['losses'][number]>[] {
  return [
    { key: 'on', title: 'Date', unbroken: true, cell: (loss) => loss.on },
    { key: 'number', title: 'Number', number: true, cell: (loss) => loss.number },
    {
      key: 'why',
      title: 'How and why',
      cell: (loss) =>
        `${lossWord[loss.kind]}: ${loss.reason}${loss.heritable ? ' (thought heritable)' : ''}`,
    },
    {
      key: 'do',
      changes: true,
      title: <span className="lw-heard">Actions</span>,
      cell: (loss) => withdrawal.button(loss.id, `loss of ${plural(loss.number, 'fish', 'fish')}`),
    },
  ];
}
