import { WATER_ALERTS, WATER_READINGS } from '../api/water.js';
import { RecordWaterForm } from '../panels/record-water-form.js';
import { WaterAlerts } from '../panels/water-alerts.js';
import { WaterNow } from '../panels/water-now.js';
import { WaterReadings } from '../panels/water-readings.js';
import { Answering, answers } from './invented-api.js';
import { aReading, anOldReading, readingsOver, waterAlerts } from './invented-water.js';
import { emptyBox, longWords, nothing } from './invented-words.js';
import type { Parts } from './parts.js';

const place = { vessel: 'rack 2 sump' };

/** Water: readings, alerts and the form for the next one. */
export const waterPanelParts: Parts = {
  WaterNow: {
    'over the limit': () => <WaterNow reading={readingsOver[0]!} limit={0.02} />,
    'not over it': () => <WaterNow reading={aReading} limit={0.02} />,
    'old, and not computed': () => <WaterNow reading={anOldReading} limit={0.02} />,
  },
  WaterAlerts: {
    several: () => (
      <Answering with={[answers(WATER_ALERTS, { waterAlerts })]}>
        <WaterAlerts />
      </Answering>
    ),
    brief: () => (
      <Answering with={[answers(WATER_ALERTS, { waterAlerts })]}>
        <WaterAlerts brief />
      </Answering>
    ),
    none: () =>
      emptyBox(
        <Answering with={[answers(WATER_ALERTS, { waterAlerts: [] })]}>
          <WaterAlerts quiet="No water asks for attention." />
        </Answering>,
      ),
  },
  WaterReadings: {
    several: () => (
      <Answering with={[answers(WATER_READINGS, readings(readingsOver))]}>
        <WaterReadings target={place} of="rack 2 sump" />
      </Answering>
    ),
    none: () => (
      <Answering with={[answers(WATER_READINGS, readings([]))]}>
        <WaterReadings target={place} of={longWords} />
      </Answering>
    ),
  },
  RecordWaterForm: {
    'a new reading of a new vessel': () => (
      <Answering with={[]}>
        <RecordWaterForm target={{ vessel: null }} before={null} onClose={nothing} />
      </Answering>
    ),
    'a correction': () => (
      <Answering with={[]}>
        <RecordWaterForm target={place} before={aReading} correcting={aReading} onClose={nothing} />
      </Answering>
    ),
  },
};

function readings(all: typeof readingsOver) {
  return {
    waterReadings: {
      edges: all.map((node) => ({ node })),
      pageInfo: { hasNextPage: false, endCursor: null },
      totalCount: all.length,
    },
    waterRule: { limitAsNH3: 0.02, trustHours: 48 },
  };
}
