import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate } from 'react-router';
import { DROP_PAIRING, PAIRINGS, type PairingRow } from '../../api/pairings.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { WarningList } from '../../components/pair-judgement.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import type { PairingState } from '../../wording/words.js';
import { PairingSpawnForm } from './pairing-spawn-form.js';
import type { Column } from '../../components/data-table.js';

const stateWord: Record<PairingState, string> = {
  PLANNED: 'planned',
  SPAWNED: 'spawned',
  DROPPED: 'dropped',
};

interface Opened {
  kind: 'spawn' | 'drop';
  pairing: PairingRow;
}

type OpenSheet = Opened | null;

export function PlannedScreen() {
  const [state, setState] = useState<PairingState | ''>('PLANNED');
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const read = useRead(PAIRINGS, { states: state === '' ? null : [state] });
  return (
    <Screen
      title="Planned pairings"
      actions={<Link to="/next-pairing">Choose the next pairing</Link>}
    >
      <div className="lw-filter">
        <NativeSelect
          label="Show"
          value={state}
          onChange={(event) => setState(event.currentTarget.value as PairingState | '')}
          data={stateChoices}
        />
      </div>
      <Shown read={read} what="the pairings">
        {({ pairings }) =>
          pairings.length === 0 ? (
            <Empty action={<Link to="/next-pairing">Choose the next pairing</Link>}>
              {state === '' || state === 'PLANNED'
                ? 'Nothing is planned. “Next pairing” sets every male in use beside every female and shows why each pair is good or bad.'
                : `No pairing is ${stateWord[state]}.`}
            </Empty>
          ) : (
            <PairingTable pairings={pairings} onOpen={setSheet} />
          )
        }
      </Shown>
      {sheet !== null && <PairingSheet {...sheet} onClose={() => setSheet(null)} />}
    </Screen>
  );
}

const stateChoices = [
  ...Object.entries(stateWord).map(([value, label]) => ({ value, label })),
  { value: '', label: 'all' },
];

/** The pair as it is spoken of. */
const pairWords = ({ sire, dam }: PairingRow): string => `${sire.tag} by ${dam.tag}`;

function PairingSheet({ kind, pairing, onClose }: Opened & { onClose: () => void }) {
  if (kind === 'drop') return <DropSheet pairing={pairing} onClose={onClose} />;
  return (
    <Sheet
      title={`Record the spawn of ${pairing.sire.tag} and ${pairing.dam.tag}`}
      opened
      onClose={onClose}
    >
      <PairingSpawnForm pairing={pairing} onCancel={onClose} />
    </Sheet>
  );
}

type Open = (sheet: Opened) => void;

interface PairingTableProps {
  pairings: readonly PairingRow[];
  onOpen: Open;
}

function PairingTable({ pairings, onOpen }: PairingTableProps) {
  return (
    <DataTable
      caption="Planned pairings"
      rows={pairings}
      rowKey={(pairing) => pairing.id}
      columns={pairingColumns(onOpen)}
    />
  );
}

const pairingColumns = (onOpen: Open): readonly Column<PairingRow>[] => [
  { key: 'on', title: 'Planned on', wideOnly: true, cell: (pairing) => pairing.plannedOn },
  { key: 'pair', title: 'Pair', cell: (pairing) => <PairCell pairing={pairing} /> },
  { key: 'f', title: 'F of brood', number: true, cell: (pairing) => inbreedingText(pairing) },
  { key: 'state', title: 'State', cell: (pairing) => <StateCell pairing={pairing} /> },
  {
    key: 'do',
    title: <span className="lw-heard">Actions</span>,
    cell: (pairing) => <PairingActions pairing={pairing} onOpen={onOpen} />,
  },
];

function PairCell({ pairing: { sire, dam, reason, obstacles } }: { pairing: PairingRow }) {
  return (
    <>
      <FishLink fish={sire} /> × <FishLink fish={dam} />
      {reason !== null && <div className="lw-quiet">{reason}</div>}
      {obstacles.length > 0 && <WarningList warnings={obstacles} />}
    </>
  );
}

function StateCell({ pairing: { state, spawns } }: { pairing: PairingRow }) {
  return (
    <>
      {stateWord[state]}
      {spawns.map((spawn) => (
        <span key={spawn.id}>
          {' '}
          <Link to={`/spawns/${spawn.id}`}>{spawn.tag}</Link>
        </span>
      ))}
    </>
  );
}

interface PairingActionsProps {
  pairing: PairingRow;
  onOpen: Open;
}

function PairingActions({ pairing, onOpen }: PairingActionsProps) {
  const navigate = useNavigate();
  return (
    <span className="lw-actions">
      {pairing.mayChange && pairing.state !== 'DROPPED' && (
        <Button
          size="xs"
          aria-label={`Record spawn of ${pairWords(pairing)}`}
          onClick={() => onOpen({ kind: 'spawn', pairing })}
        >
          Record spawn
        </Button>
      )}
      <Button
        size="xs"
        aria-label={`Open the pair ${pairWords(pairing)}`}
        onClick={() => void navigate(`/pair?sire=${pairing.sire.id}&dam=${pairing.dam.id}`)}
      >
        Open
      </Button>
      {pairing.mayChange && pairing.state === 'PLANNED' && (
        <Button
          size="xs"
          aria-label={`Drop ${pairWords(pairing)}`}
          onClick={() => onOpen({ kind: 'drop', pairing })}
        >
          Drop
        </Button>
      )}
    </span>
  );
}

function DropSheet({ pairing, onClose }: { pairing: PairingRow; onClose: () => void }) {
  return (
    <WithdrawRecord
      mutation={DROP_PAIRING}
      record={pairing}
      title={`Drop ${pairing.sire.tag} by ${pairing.dam.tag}`}
      what="this plan"
      verb="Drop"
      onClose={onClose}
    />
  );
}
