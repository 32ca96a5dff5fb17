import { electricityCaution } from '@linewright/care';
import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useSearchParams } from 'react-router';
import { WATER_PLACES, type WaterPlace } from '../../api/water.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Caution } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { RecordWaterForm } from '../../panels/record-water-form.js';
import { WaterAlerts } from '../../panels/water-alerts.js';
import { WaterReadings } from '../../panels/water-readings.js';
import { showTime } from '../../wording/figures.js';
import { milligrams, standingWord, trustWord } from '../../wording/water-words.js';
import { WaterCalculator } from './water-calculator.js';
import { WaterRuleSection } from './water-rule-section.js';
import styles from '../../panels/water-now.module.css';
import type { Column } from '../../components/data-table.js';

export function WaterScreen() {
  const [search] = useSearchParams();
  const [recording, setRecording] = useState(false);
  const read = useRead(WATER_PLACES, {});
  const vessel = search.get('vessel');
  const spawnId = search.get('spawn');
  const spawnTag =
    read.data?.waterPlaces.find(({ spawn }) => spawn?.id === spawnId)?.spawn?.tag ?? '';
  return (
    <Screen
      title="Water"
      lead="What harms fish is the un-ionised part of ammonia, and that depends on pH and temperature."
      actions={
        <Button className="lw-primary" onClick={() => setRecording(true)}>
          Record reading
        </Button>
      }
    >
      <WaterAlerts quiet="Nothing in the newest readings asks for attention." />
      {vessel !== null && (
        <WaterReadings key={vessel} target={{ vessel }} of={vessel} title={`Water of ${vessel}`} />
      )}
      <SpawnWater spawnId={spawnId} spawnTag={spawnTag} />
      <Section title="Vessels and spawns">
        <Shown read={read} what="the waters">
          {({ waterPlaces }) => <Places places={waterPlaces} />}
        </Shown>
      </Section>
      <WaterCalculator />
      <WaterRuleSection />
      <Caution>
        Gloves for work in tanks, cuts covered, and never start a siphon by mouth: bacteria of fish
        tanks infect people. {electricityCaution} A fish that gasps or lies on its side needs a vet,
        not only a change of water. <Link to="/cautions">All cautions</Link>
      </Caution>
      <Sheet title="Record reading" opened={recording} onClose={() => setRecording(false)}>
        <RecordWaterForm
          target={{ vessel: null }}
          before={read.data?.waterPlaces[0]?.latest ?? null}
          onClose={() => setRecording(false)}
        />
      </Sheet>
    </Screen>
  );
}

function SpawnWater({ spawnId, spawnTag }: { spawnId: string | null; spawnTag: string }) {
  return (
    spawnId !== null && (
      <>
        <WaterReadings
          key={spawnId}
          target={{ spawnId }}
          of={`spawn ${spawnTag}`}
          title={`Water of spawn ${spawnTag}`}
        />
        <p>
          <Link to={`/spawns/${spawnId}`}>Go to the spawn</Link>
        </p>
      </>
    )
  );
}

function Places({ places }: { places: readonly WaterPlace[] }) {
  if (places.length === 0) {
    return (
      <Empty>
        No reading yet. Record one here for a vessel, or on the page of a spawn for its tank.
      </Empty>
    );
  }
  return (
    <DataTable
      caption="Waters with readings"
      rows={places}
      rowKey={(place) => place.latest.id}
      columns={placeColumns()}
    />
  );
}

function placeColumns(): readonly Column<WaterPlace>[] {
  return [
    {
      key: 'name',
      title: 'Water',
      cell: (place) => (
        <Link
          to={
            place.spawn === null
              ? `?vessel=${encodeURIComponent(place.name)}`
              : `?spawn=${place.spawn.id}`
          }
        >
          {place.spawn === null ? place.name : `spawn ${place.name}`}
        </Link>
      ),
    },
    {
      key: 'nh3',
      title: 'NH3, mg/L',
      number: true,
      cell: ({ latest }) => (latest.unionised === null ? '–' : milligrams(latest.unionised.asNH3)),
    },
    {
      key: 'standing',
      title: 'Status',
      cell: ({ latest }) => (
        <span className={styles[`standing-${latest.standing}`]}>
          {standingWord[latest.standing]}
        </span>
      ),
    },
    {
      key: 'trust',
      title: 'Reading',
      cell: ({ latest }) => trustWord[latest.trust.state],
    },
    {
      key: 'at',
      title: 'Last taken',
      unbroken: true,
      wideOnly: true,
      cell: ({ latest }) => showTime(latest.takenAt),
    },
    {
      key: 'count',
      title: 'Readings',
      number: true,
      wideOnly: true,
      cell: (place) => place.readingCount,
    },
  ];
}
