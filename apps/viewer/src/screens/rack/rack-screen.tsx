import { Button } from '@mantine/core';
import { useState } from 'react';
import { useNavigate, useParams, useSearchParams } from 'react-router';
import { FISH_NAME } from '../../api/fish.js';
import { useRead } from '../../api/use-read.js';
import type { Vessel } from '../../api/vessels.js';
import { Screen } from '../../components/screen.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Loading } from '../../components/states.js';
import { Done, ProblemNotice } from '../../components/notice.js';
import { ScanCode } from '../../panels/scan-code.js';
import { useMayAdd } from '../../session/may.js';
import { AskCompany } from './ask-company.js';
import { RackDrawing } from './rack-drawing.js';
import { RackForm } from './rack-form.js';
import { useMoves, type Carried, type Moves } from './use-moves.js';
import { useVessels } from './use-vessels.js';
import { VesselForm } from './vessel-form.js';
import { VesselPanel } from './vessel-panel.js';
import { VesselTable } from './vessel-table.js';

/** Racks as they stand, who is in which vessel, and the moving from one to another. */
export function RackScreen() {
  const { id = null } = useParams();
  const choose = useChoose();
  const [making, setMaking] = useState<'rack' | { code: string } | null>(null);
  const vessels = useVessels();
  const moves = useMoves(vessels.refresh);
  useFishInAddress(moves);
  const chosen = vessels.list.find((one) => one.id === id) ?? null;
  const tap = (vessel: Vessel) => {
    if (moves.carried === null) choose(vessel.id);
    else void moves.put(vessel);
  };
  return (
    <Screen
      title="Rack"
      lead="Jars, tanks and tubs as they stand, and who is in which."
      actions={
        <>
          <Button className="lw-primary" onClick={() => setMaking({ code: '' })}>
            New vessel
          </Button>
          <Button onClick={() => setMaking('rack')}>New rack</Button>
        </>
      }
    >
      <ScanCode
        label={moves.carried === null ? 'Scan or type a code' : 'Code of the vessel it goes into'}
        onFound={({ vessel, fish, unknownCode }) => {
          if (vessel !== null) tap(vessel);
          else if (fish !== null) moves.carry({ fishId: fish.id, words: fish.tag });
          else if (unknownCode !== null) setMaking({ code: unknownCode });
        }}
      />
      <CarryStrip moves={moves} />
      <ProblemNotice problem={vessels.problem ?? moves.problem} onRetry={vessels.refresh} />
      <Vessels vessels={vessels} moves={moves} chosen={chosen} onTap={tap} />
      <VesselPanel
        key={chosen?.id}
        vessel={chosen}
        moves={moves}
        onChanged={vessels.refresh}
        onClose={() => choose(null)}
      />
      <AskCompany moves={moves} />
      <MakingSheets
        making={making}
        onClose={() => setMaking(null)}
        onMade={(made) => {
          setMaking(null);
          vessels.refresh();
          if (made !== null && moves.carried !== null) void moves.put(made);
        }}
      />
    </Screen>
  );
}

/** Which vessel is open stands in the address: a scanned label leads there. */
function useChoose(): (vesselId: string | null) => void {
  const navigate = useNavigate();
  return (vesselId) =>
    void navigate(vesselId === null ? '/rack' : `/vessels/${vesselId}`, {
      replace: true,
      preventScrollReset: true,
    });
}

/** A fish that another page sent here to be moved: it is picked up. */
function useFishInAddress(moves: Moves): void {
  const [search, setSearch] = useSearchParams();
  const id = search.get('fish');
  const { data } = useRead(FISH_NAME, { id: id ?? '' }, { pause: id === null });
  if (id === null || data?.fish == null) return;
  if (moves.carried === null) moves.carry({ fishId: id, words: data.fish.tag });
  else setSearch({}, { replace: true });
}

interface VesselsProps {
  vessels: ReturnType<typeof useVessels>;
  moves: Moves;
  chosen: Vessel | null;
  onTap: (vessel: Vessel) => void;
}

function Vessels({ vessels: { list, loading }, moves, chosen, onTap }: VesselsProps) {
  const mayMove = useMayAdd();
  if (list.length === 0)
    return loading ? (
      <Loading what="the vessels" />
    ) : (
      <Empty>
        No vessel yet. Put up a rack to get all its jars at once, or record a tank or tub by itself.
      </Empty>
    );
  return (
    <>
      <RackDrawing
        vessels={list}
        chosen={chosen?.id ?? null}
        carrying={moves.carried !== null}
        mayMove={mayMove}
        onTap={onTap}
        onDrop={(carried: Carried, vessel) => void moves.put(vessel, carried)}
      />
      <details>
        <summary>The same as a table</summary>
        <VesselTable vessels={list} onTap={onTap} />
      </details>
    </>
  );
}

/** Who is picked up, and what was moved last. */
function CarryStrip({ moves: { carried, moved, saving, drop } }: { moves: Moves }) {
  if (carried !== null)
    return (
      <div className="lw-notice" role="status">
        <p>
          <strong>{carried.words}</strong> is picked up: tap the vessel it goes into, or scan its
          code.
        </p>
        <Button onClick={drop} disabled={saving}>
          Put it back
        </Button>
      </div>
    );
  return moved === null ? null : <Done>{moved}</Done>;
}

interface MakingSheetsProps {
  making: 'rack' | { code: string } | null;
  onClose: () => void;
  onMade: (made: { id: string; code: string } | null) => void;
}

function MakingSheets({ making, onClose, onMade }: MakingSheetsProps) {
  return (
    <>
      <Sheet title="New rack" opened={making === 'rack'} onClose={onClose}>
        <RackForm onMade={() => onMade(null)} onCancel={onClose} />
      </Sheet>
      <Sheet title="New vessel" opened={making !== null && making !== 'rack'} onClose={onClose}>
        {making !== null && making !== 'rack' && (
          <VesselForm code={making.code} onSaved={onMade} onCancel={onClose} />
        )}
      </Sheet>
    </>
  );
}
