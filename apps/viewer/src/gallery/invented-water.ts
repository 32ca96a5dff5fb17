import type { WaterAlert, WaterFigures } from '../api/water.js';
import { longWords } from './invented-words.js';

export const aReading: WaterFigures = {
  id: 'w1',
  vessel: 'rack 2 sump',
  takenAt: '2026-03-12T08:00:00Z',
  totalAmmonia: 0.25,
  ammoniaUnit: 'N',
  pH: 7.2,
  celsius: 26,
  nitrite: 0.05,
  nitriteForm: 'ION',
  nitrate: 10,
  nitrateForm: 'ION',
  kit: 'drops',
  note: null,
  revision: 1,
  standing: 'UNDER',
  notComputed: null,
  trust: { state: 'FRESH', hoursLeft: 31 },
  unionised: {
    asNH3: 0.0029,
    asN: 0.0024,
    totalAsN: 0.25,
    share: 0.0095,
    pKa: 9.21,
    beyondTables: false,
  },
  change: null,
};

const over = (k: number): WaterFigures => ({
  ...aReading,
  id: `over ${k}`,
  takenAt: `2026-03-${String(20 - k).padStart(2, '0')}T08:00:00Z`,
  nitrite: 1,
  standing: k < 2 ? 'OVER' : 'UNDER',
  unionised: { ...aReading.unionised!, asNH3: 0.034 - 0.008 * k },
  change: {
    outcome: 'OFFERED',
    remedy: 'Change half of the water.',
    cautions: [longWords],
  },
});

/** The newest first. */
export const readingsOver: readonly WaterFigures[] = [over(0), over(1), over(2), over(3)];

export const anOldReading: WaterFigures = {
  ...aReading,
  id: 'old',
  pH: null,
  unionised: null,
  standing: 'UNKNOWN',
  notComputed: 'Without a pH the part that harms is not known.',
  trust: { state: 'OLD', hoursLeft: 0 },
};

export const waterAlerts: WaterAlert[] = [
  {
    kind: 'AMMONIA_OVER',
    severity: 'caution',
    message: 'is over your limit.',
    cautions: [longWords],
    place: {
      name: 'rack 2 sump',
      vessel: 'rack 2 sump',
      spawn: null,
      latest: { id: 'w1', takenAt: '2026-03-12T08:00:00Z' },
    },
  },
  {
    kind: 'READING_OLD',
    severity: 'note',
    message: 'was not measured for 9 days.',
    cautions: [],
    place: {
      name: 'T24-07',
      vessel: null,
      spawn: { id: 's1' },
      latest: { id: 'w2', takenAt: '2026-03-03T08:00:00Z' },
    },
  },
];
