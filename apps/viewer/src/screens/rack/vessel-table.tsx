import { Button } from '@mantine/core';
import type { Vessel } from '../../api/vessels.js';
import { DataTable, type Column } from '../../components/data-table.js';
import { standsWords, vesselKindWord, whoWords } from '../../wording/vessel-words.js';

interface VesselTableProps {
  vessels: readonly Vessel[];
  onTap: (vessel: Vessel) => void;
}

/** What the drawing of the racks shows, as a table. */
export function VesselTable({ vessels, onTap }: VesselTableProps) {
  return (
    <DataTable
      caption="Vessels"
      rows={vessels}
      rowKey={({ id }) => id}
      columns={columnsWith(onTap)}
    />
  );
}

const columnsWith = (onTap: VesselTableProps['onTap']): readonly Column<Vessel>[] => [
  {
    key: 'code',
    title: 'Vessel',
    cell: (vessel) => (
      <Button size="xs" onClick={() => onTap(vessel)}>
        {vessel.code}
      </Button>
    ),
  },
  { key: 'who', title: 'In it', cell: ({ stays }) => whoWords(stays) || 'empty' },
  { key: 'stands', title: 'Stands', cell: standsWords, wideOnly: true },
  { key: 'kind', title: 'Kind', cell: ({ kind }) => vesselKindWord[kind], wideOnly: true },
  { key: 'litres', title: 'Litres', number: true, wideOnly: true, cell: ({ litres }) => litres },
];
