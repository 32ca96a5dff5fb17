import { Button, NativeSelect } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate, type NavigateFunction } from 'react-router';
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

type OpenSheet = { kind: 'spawn' | 'drop'; pairing: PairingRow } | null;

export function PlannedScreen() {
  const [state, setState] = useState<PairingState | ''>('PLANNED');
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const read = useRead(PAIRINGS, { states: state === '' ? null : [state] });
  const close = () => setSheet(null);
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
          data={[
            { value: 'PLANNED', label: 'planned' },
            { value: 'SPAWNED', label: 'spawned' },
            { value: 'DROPPED', label: 'dropped' },
            { value: '', label: 'all' },
          ]}
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
            <PairingTable
              pairings={pairings}
              onSpawn={(pairing) => setSheet({ kind: 'spawn', pairing })}
              onDrop={(pairing) => setSheet({ kind: 'drop', pairing })}
            />
          )
        }
      </Shown>
      {sheet?.kind === 'spawn' && (
        <Sheet
          title={`Record the spawn of ${sheet.pairing.sire.tag} and ${sheet.pairing.dam.tag}`}
          opened
          onClose={close}
        >
          <PairingSpawnForm pairing={sheet.pairing} onCancel={close} />
        </Sheet>
      )}
      {sheet?.kind === 'drop' && <DropSheet pairing={sheet.pairing} onClose={close} />}
    </Screen>
  );
}

interface PairingTableProps {
  pairings: readonly PairingRow[];
  onSpawn: (pairing: PairingRow) => void;
  onDrop: (pairing: PairingRow) => void;
}

function PairingTable({ pairings, onSpawn, onDrop }: PairingTableProps) {
  const navigate = useNavigate();
  const pairWords = ({ sire, dam }: PairingRow) => `${sire.tag} by ${dam.tag}`;
  return (
    <DataTable
      caption="Planned pairings"
      rows={pairings}
      rowKey={(pairing) => pairing.id}
      columns={pairingColumns(pairWords, onSpawn, navigate, onDrop)}
    />
  );
}

function pairingColumns(
  pairWords: ({ sire, dam }: PairingRow) => string,
  onSpawn: (pairing: PairingRow) => void,
  navigate: NavigateFunction,
  onDrop: (pairing: PairingRow) => void,
): readonly Column<PairingRow>[] {
  return [
    { key: 'on', title: 'Planned on', wideOnly: true, cell: (pairing) => pairing.plannedOn },
    {
      key: 'pair',
      title: 'Pair',
      cell: ({ sire, dam, reason, obstacles }) => (
        <>
          <FishLink fish={sire} /> × <FishLink fish={dam} />
          {reason !== null && <div className="lw-quiet">{reason}</div>}
          {obstacles.length > 0 && <WarningList warnings={obstacles} />}
        </>
      ),
    },
    {
      key: 'f',
      title: 'F of brood',
      number: true,
      cell: (pairing) => inbreedingText(pairing),
    },
    {
      key: 'state',
      title: 'State',
      cell: (pairing) => (
        <>
          {stateWord[pairing.state]}
          {pairing.spawns.map((spawn) => (
            <span key={spawn.id}>
              {' '}
              <Link to={`/spawns/${spawn.id}`}>{spawn.tag}</Link>
            </span>
          ))}
        </>
      ),
    },
    {
      key: 'do',
      title: <span className="lw-heard">Actions</span>,
      cell: (pairing) => (
        <PairingActions
          pairing={pairing}
          pairWords={pairWords}
          onSpawn={onSpawn}
          navigate={navigate}
          onDrop={onDrop}
        />
      ),
    },
  ];
}

interface PairingActionsProps {
  pairing: PairingRow;
  pairWords: ({ sire, dam }: PairingRow) => string;
  onSpawn: (pairing: PairingRow) => void;
  navigate: NavigateFunction;
  onDrop: (pairing: PairingRow) => void;
}

function PairingActions({ pairing, pairWords, onSpawn, navigate, onDrop }: PairingActionsProps) {
  return (
    <span className="lw-actions">
      {pairing.state !== 'DROPPED' && (
        <Button
          size="xs"
          aria-label={`Record spawn of ${pairWords(pairing)}`}
          onClick={() => onSpawn(pairing)}
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
      {pairing.state === 'PLANNED' && (
        <Button size="xs" aria-label={`Drop ${pairWords(pairing)}`} onClick={() => onDrop(pairing)}>
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
