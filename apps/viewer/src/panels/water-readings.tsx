import { Button } from '@mantine/core';
import type { ResultOf } from '../api/graphql.js';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { WATER_READINGS, WITHDRAW_WATER, type WaterFigures } from '../api/water.js';
import { useRead } from '../api/use-read.js';
import { DataTable } from '../components/data-table.js';
import { MorePages } from '../components/more-pages.js';
import { Section } from '../components/section.js';
import { Sheet } from '../components/sheet.js';
import { EmptyPart } from '../components/empty-part.js';
import { Shown } from '../components/states.js';
import { WithdrawRecord } from '../components/withdraw-record.js';
import { WaterPlot } from '../drawings/index.js';
import { useMayAdd } from '../session/may.js';
import { showTime } from '../wording/figures.js';
import { milligrams } from '../wording/water-words.js';
import { RecordWaterForm, type WaterTarget } from './record-water-form.js';
import { WaterNow } from './water-now.js';
import { ammoniaText, askedOf, figuresText, harmfulPoints } from './water-texts.js';
import styles from './water-now.module.css';
import type { Column } from '../components/data-table.js';

interface WaterReadingsProps {
  target: WaterTarget;
  /** What the readings are of: "spawn RB26-02", "rack 2 sump". */
  of: string;
  title?: string;
}

/** The newest reading judged, all of them over time, and a form for the next. */
export function WaterReadings({ target, of, title = 'Water' }: WaterReadingsProps) {
  // Readings are the keeper's alone, also of a spawn that a partner recorded.
  const records = useMayAdd();
  const [recording, setRecording] = useState(false);
  const read = useRead(WATER_READINGS, { ...askedOf(target), after: null });
  const latest = read.data?.waterReadings.edges[0]?.node ?? null;
  return (
    <Section
      title={title}
      act={records}
      actions={
        <Button size="xs" onClick={() => setRecording(true)}>
          Record reading
        </Button>
      }
    >
      <Shown read={read} what="the readings">
        {(found) =>
          latest === null ? (
            <EmptyPart part="WATER">
              No reading yet. Total ammonia, pH and temperature together give the part that harms
              fish.
            </EmptyPart>
          ) : (
            <FoundReadings found={found} latest={latest} of={of} target={target} />
          )
        }
      </Shown>
      <Sheet title={`Water of ${of}`} opened={recording} onClose={() => setRecording(false)}>
        <RecordWaterForm target={target} before={latest} onClose={() => setRecording(false)} />
      </Sheet>
    </Section>
  );
}

interface FoundReadingsProps {
  found: ResultOf<typeof WATER_READINGS>;
  latest: WaterFigures;
  of: string;
  target: WaterTarget;
}

function FoundReadings({ found, latest, of, target }: FoundReadingsProps) {
  const { waterReadings, waterRule } = found;
  const readings = waterReadings.edges.map(({ node }) => node);
  const points = harmfulPoints(readings);
  return (
    <>
      <WaterNow reading={latest} limit={waterRule.limitAsNH3} />
      {points.length > 1 && (
        <WaterPlot
          title={`Un-ionised ammonia of ${of}`}
          limit={waterRule.limitAsNH3}
          points={points}
        />
      )}
      <ReadingTable readings={readings} of={of} target={target} />
      <MorePages
        page={waterReadings}
        listed={readings.length}
        what="readings"
        next={(after) => (
          <OlderReadings of={of} target={target} after={after} before={readings.length} />
        )}
      />
    </>
  );
}

interface OlderReadingsProps {
  of: string;
  target: WaterTarget;
  /** Where the page before ended, and how many readings were listed by then. */
  after: string;
  before: number;
}

function OlderReadings({ of, target, after, before }: OlderReadingsProps) {
  const read = useRead(WATER_READINGS, { ...askedOf(target), after });
  return (
    <Shown read={read} what="the readings">
      {({ waterReadings }) => {
        const listed = before + waterReadings.edges.length;
        return (
          <>
            <ReadingTable
              readings={waterReadings.edges.map(({ node }) => node)}
              of={of}
              target={target}
            />
            <MorePages
              page={waterReadings}
              listed={listed}
              what="readings"
              next={(cursor) => (
                <OlderReadings of={of} target={target} after={cursor} before={listed} />
              )}
            />
          </>
        );
      }}
    </Shown>
  );
}

interface ReadingTableProps {
  readings: readonly WaterFigures[];
  of: string;
  target: WaterTarget;
}

function ReadingTable({ readings, of, target }: ReadingTableProps) {
  const [correcting, setCorrecting] = useState<WaterFigures | null>(null);
  const [leaving, setLeaving] = useState<WaterFigures | null>(null);
  return (
    <>
      <DataTable
        caption={`Readings of ${of}`}
        low
        rows={readings}
        rowKey={(reading) => reading.id}
        columns={readingColumns(setCorrecting)}
      />
      <CorrectReading
        of={of}
        correcting={correcting}
        setCorrecting={setCorrecting}
        target={target}
        setLeaving={setLeaving}
      />
      {leaving !== null && (
        <WithdrawRecord
          mutation={WITHDRAW_WATER}
          record={leaving}
          title="Withdraw reading"
          what={`the reading of ${showTime(leaving.takenAt)}`}
          onClose={() => setLeaving(null)}
        />
      )}
    </>
  );
}

interface CorrectReadingProps {
  of: string;
  correcting: WaterFigures | null;
  setCorrecting: Dispatch<SetStateAction<WaterFigures | null>>;
  target: WaterTarget;
  setLeaving: Dispatch<SetStateAction<WaterFigures | null>>;
}

function CorrectReading({
  of,
  correcting,
  setCorrecting,
  target,
  setLeaving,
}: CorrectReadingProps) {
  return (
    <Sheet
      title={`Correct a reading of ${of}`}
      opened={correcting !== null}
      onClose={() => setCorrecting(null)}
    >
      {correcting !== null && (
        <RecordWaterForm
          target={target}
          before={correcting}
          correcting={correcting}
          onClose={() => setCorrecting(null)}
        />
      )}
      <p>
        <button
          type="button"
          className="lw-link-button"
          onClick={() => {
            setLeaving(correcting);
            setCorrecting(null);
          }}
        >
          Withdraw it instead
        </button>
      </p>
    </Sheet>
  );
}

function readingColumns(
  setCorrecting: Dispatch<SetStateAction<WaterFigures | null>>,
): readonly Column<WaterFigures>[] {
  return [
    { key: 'at', title: 'Taken', cell: (one) => <TakenAt iso={one.takenAt} /> },
    { key: 'total', title: 'Ammonia', number: true, cell: ammoniaText },
    {
      key: 'state',
      title: 'pH, °C',
      number: true,
      cell: ({ pH, celsius }) => figuresText(pH, celsius),
    },
    { key: 'nh3', title: 'NH3', number: true, cell: (one) => <Harmful reading={one} /> },
    {
      key: 'no',
      title: 'NO2, NO3',
      number: true,
      wideOnly: true,
      cell: ({ nitrite, nitrate }) => figuresText(nitrite, nitrate),
    },
    {
      key: 'do',
      title: <span className="lw-heard">Actions</span>,
      cell: (one) => (
        <button
          type="button"
          className="lw-small-button"
          aria-label={`Correct reading of ${showTime(one.takenAt)}`}
          onClick={() => setCorrecting(one)}
        >
          Correct
        </button>
      ),
    },
  ];
}

function Harmful({ reading: { unionised, standing } }: { reading: WaterFigures }) {
  if (unionised === null) return '–';
  return (
    <>
      {milligrams(unionised.asNH3)}
      {standing === 'OVER' && <span className={styles['standing-OVER']}> over</span>}
    </>
  );
}

/** The day stays whole where the line is narrow. */
function TakenAt({ iso }: { iso: string }) {
  const [day, time] = showTime(iso).split(' ');
  return (
    <>
      <span className="lw-unbroken">{day}</span> {time}
    </>
  );
}
