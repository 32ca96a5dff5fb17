import { dateOf, timeOf } from './calendar.js';
import { RandomSource } from './random-source.js';
import type { DemoSpawn, DemoWaterReading } from './scenario.js';

interface Course {
  readonly vessel: string | null;
  readonly spawnId: string | null;
  /** Days before today on which it was read, oldest first. */
  readonly daysBack: readonly number[];
  /** mg/L of total ammonia on the nth reading. */
  readonly ammonia: (n: number) => number;
  readonly pH: number;
  readonly celsius: number;
  readonly nitrite: number | null;
  readonly nitrate: ((n: number) => number) | null;
  readonly note?: string;
}

/**
 * Water of the demo: the youngest spawn's tub with ammonia that rises between changes and stands over the usual limit
 * today, a rack that is well, a grow-out tub near the limit, and a quarantine tub that was not read for days. A stream of
 * random numbers of its own, so that the rest of the demo stays as it is.
 */
export function waterReadings(
  spawns: readonly DemoSpawn[],
  personId: string,
  today: number,
  zone: string,
  seed: number,
): DemoWaterReading[] {
  const random = new RandomSource(seed ^ 0x3a7e4);
  return courses(youngest(spawns, personId, today)).flatMap((course) =>
    course.daysBack.map((back, n): DemoWaterReading => ({
      id: random.uuid(),
      personId,
      spawnId: course.spawnId,
      vessel: course.vessel,
      // Today's as the day began: which hour it is when the demo is opened is not known.
      takenAt: timeOf(today - back, back === 0 ? 0 : random.between(17, 20), zone),
      totalAmmonia: rounded(course.ammonia(n) * random.between(0.95, 1.05), 2),
      ammoniaUnit: 'NH4',
      ph: rounded(course.pH + random.between(-0.05, 0.05), 1),
      celsius: rounded(course.celsius + random.between(-0.3, 0.3), 1),
      nitrite: course.nitrite,
      nitriteForm: course.nitrite === null ? null : 'ion',
      nitrate: course.nitrate === null ? null : rounded(course.nitrate(n), 0),
      nitrateForm: course.nitrate === null ? null : 'ion',
      kit: 'drops and a colour card, printed as NH4',
      note: n === course.daysBack.length - 1 ? (course.note ?? null) : null,
    })),
  );
}

function courses(spawnId: string | null): Course[] {
  const fryTub: Course[] =
    spawnId === null
      ? []
      : [
          {
            vessel: null,
            spawnId,
            daysBack: [10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 0],
            // Half the water is changed every third day; each round of feeding is larger than the last.
            ammonia: (n) => 0.15 + 0.045 * n + 0.3 * ((n + 1) % 3),
            pH: 7.5,
            celsius: 28,
            nitrite: 0.05,
            nitrate: null,
            note: 'fed heavily yesterday',
          },
        ];
  return [
    ...fryTub,
    {
      vessel: 'Rack 1 sump',
      spawnId: null,
      daysBack: [21, 14, 7, 0],
      ammonia: () => 0.04,
      pH: 7.1,
      celsius: 26,
      nitrite: 0.02,
      nitrate: (n) => 12 + 6 * n,
    },
    {
      vessel: 'Grow-out tub 2',
      spawnId: null,
      daysBack: [6, 4, 2, 0],
      ammonia: (n) => 0.5 + 0.12 * n,
      pH: 7.2,
      celsius: 27,
      nitrite: 0.1,
      nitrate: (n) => 20 + 3 * n,
    },
    {
      vessel: 'Quarantine tub',
      spawnId: null,
      daysBack: [8, 6, 4],
      ammonia: () => 0.15,
      pH: 7,
      celsius: 26,
      nitrite: null,
      nitrate: null,
    },
  ];
}

function youngest(spawns: readonly DemoSpawn[], personId: string, today: number): string | null {
  const [spawn] = spawns
    .filter((one) => one.personId === personId && !one.failed && one.hatchDate !== null)
    .filter((one) => (one.hatchDate ?? '') <= dateOf(today))
    .sort((a, b) => ((a.hatchDate ?? '') < (b.hatchDate ?? '') ? 1 : -1));
  return spawn?.id ?? null;
}

function rounded(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
