import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import { useRead } from '../../api/use-read.js';
import { VESSEL_STAYS, WITHDRAW_VESSEL, type Vessel } from '../../api/vessels.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { FishLink } from '../../components/fish-marks.js';
import { MorePages } from '../../components/more-pages.js';
import { Sheet } from '../../components/sheet.js';
import { Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { FishPicker } from '../../pickers/fish-picker.js';
import { useMayAdd } from '../../session/may.js';
import { showTime } from '../../wording/figures.js';
import { companyWord, standsWords, vesselKindWord } from '../../wording/vessel-words.js';
import type { Moves } from './use-moves.js';
import { VesselForm } from './vessel-form.js';

interface VesselPanelProps {
  vessel: Vessel | null;
  moves: Moves;
  onChanged: () => void;
  onClose: () => void;
}

/** One vessel: who is in it, who was, and what can be done. */
export function VesselPanel({ vessel, moves, onChanged, onClose }: VesselPanelProps) {
  const [doing, setDoing] = useState<'correct' | 'withdraw' | null>(null);
  const mayChange = useMayAdd();
  return (
    <Sheet title={vessel?.code ?? ''} opened={vessel !== null} onClose={onClose}>
      {vessel !== null && doing === 'correct' && (
        <VesselForm
          vessel={vessel}
          onSaved={() => {
            setDoing(null);
            onChanged();
          }}
          onCancel={() => setDoing(null)}
        />
      )}
      {vessel !== null && doing !== 'correct' && (
        <>
          <InIt vessel={vessel} moves={moves} mayMove={mayChange} onClose={onClose} />
          <VesselFacts vessel={vessel} />
          {mayChange && (
            <div className="lw-actions">
              <Button onClick={() => setDoing('correct')}>Correct</Button>
              <Button onClick={() => setDoing('withdraw')}>No longer in use</Button>
            </div>
          )}
          <h3>Who was in it</h3>
          <Stays vesselId={vessel.id} />
          <WithdrawRecord
            mutation={WITHDRAW_VESSEL}
            record={vessel}
            title={`${vessel.code} is no longer in use`}
            what={vessel.code}
            verb="Take out of use"
            opened={doing === 'withdraw'}
            onClose={() => setDoing(null)}
            onWithdrawn={() => {
              onChanged();
              onClose();
            }}
          />
        </>
      )}
    </Sheet>
  );
}

function VesselFacts({ vessel }: { vessel: Vessel }) {
  return (
    <Facts
      facts={[
        { name: 'Kind', value: vesselKindWord[vessel.kind] },
        { name: 'Holds', value: vessel.litres === null ? null : `${vessel.litres} litres` },
        { name: 'Stands', value: standsWords(vessel) },
        { name: 'Note', value: vessel.note },
        {
          name: 'Water',
          value: <Link to={`/water?vessel=${encodeURIComponent(vessel.code)}`}>Readings</Link>,
        },
        {
          name: 'Label',
          value: <Link to={`/print?what=vessel-labels&vessel=${vessel.id}`}>Print</Link>,
        },
      ]}
    />
  );
}

interface InItProps {
  vessel: Vessel;
  moves: Moves;
  mayMove: boolean;
  onClose: () => void;
}

function InIt({ vessel, moves, mayMove, onClose }: InItProps) {
  const [adding, setAdding] = useState<string | null>(null);
  return (
    <>
      {vessel.stays.length === 0 && <p>Nobody is in it.</p>}
      {vessel.stays.map(({ id, fish, spawn, company }) => {
        const who =
          fish == null
            ? { spawnId: spawn?.id ?? '', words: `Spawn ${spawn?.tag ?? ''}` }
            : { fishId: fish.id, words: fish.tag };
        return (
          <div key={id} className="lw-actions">
            <span>
              {fish == null ? (
                <Link to={`/spawns/${spawn?.id}`}>{who.words}</Link>
              ) : (
                <FishLink fish={fish} />
              )}
              {company !== null && <span className="lw-quiet"> {companyWord[company]}</span>}
            </span>
            {mayMove && (
              <>
                <Button
                  onClick={() => {
                    moves.carry(who);
                    onClose();
                  }}
                >
                  Move {who.words}
                </Button>
                <Button onClick={() => void moves.takeOut(who)}>Take out</Button>
              </>
            )}
          </div>
        );
      })}
      {mayMove && (
        <FishPicker
          label="Put a fish in"
          value={adding}
          onChange={(fishId) => {
            setAdding(fishId);
            if (fishId !== null) void moves.put(vessel, { fishId, words: 'The fish' });
          }}
        />
      )}
    </>
  );
}

function Stays({ vesselId, after = null }: { vesselId: string; after?: string | null }) {
  const read = useRead(VESSEL_STAYS, { vesselId, after });
  return (
    <Shown read={read} what="who was in it">
      {({ vesselStays }) =>
        vesselStays.edges.length === 0 ? (
          <p className="lw-quiet">Nobody on record yet.</p>
        ) : (
          <>
            <DataTable
              caption="Who was in it"
              rows={vesselStays.edges.map(({ node }) => node)}
              rowKey={({ id }) => id}
              columns={[
                {
                  key: 'who',
                  title: 'Who',
                  cell: ({ fish, spawn }) =>
                    fish == null ? `spawn ${spawn?.tag ?? ''}` : <FishLink fish={fish} />,
                },
                { key: 'came', title: 'Came', cell: ({ cameAt }) => showTime(cameAt) },
                {
                  key: 'left',
                  title: 'Left',
                  cell: ({ leftAt }) => (leftAt === null ? '' : showTime(leftAt)),
                },
                { key: 'by', title: 'By', cell: ({ byName }) => byName, wideOnly: true },
              ]}
            />
            <MorePages
              page={vesselStays}
              listed={vesselStays.edges.length}
              what="stays"
              next={(cursor) => <Stays vesselId={vesselId} after={cursor} />}
            />
          </>
        )
      }
    </Shown>
  );
}
