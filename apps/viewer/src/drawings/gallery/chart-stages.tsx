import { seededChance } from '@linewright/pedigree';
import { DAY } from '@linewright/care';
import type { ReactNode } from 'react';
import { DrawnFishStage } from './drawn-fish-stage.js';
import {
  CareTimeline,
  ForecastFan,
  GenotypeBar,
  OutcrossSteps,
  RepeatDots,
  RouteChances,
  ScorerDifferences,
  SurvivalCurve,
  WaterPlot,
  WorthAgainstKinship,
  YoungWorths,
} from '../index.js';

const start = Date.parse('2026-03-10T08:00:00Z');

function waterPlot(): ReactNode {
  const random = seededChance(4);
  const points = Array.from({ length: 14 }, (_, k) => ({
    id: String(k),
    at: new Date(start + k * 1.7 * DAY),
    unionised: 0.034 * random(),
  }));
  return <WaterPlot title="Un-ionised ammonia of rack 2 sump" points={points} limit={0.02} />;
}

function survivalCurve(): ReactNode {
  const steps = [3, 7, 12, 19, 26, 33].map((day, k) => {
    const survival = 0.94 - 0.09 * k;
    return {
      day,
      atRisk: 200 - 18 * k,
      deaths: 18,
      withdrawn: k === 4 ? 6 : 0,
      survival,
      low: survival - 0.05,
      high: Math.min(1, survival + 0.05),
    };
  });
  return (
    <SurvivalCurve
      title="Alive by age"
      steps={steps}
      lastDay={40}
      pooled={steps.map(({ day, survival }) => ({ day, survival: survival - 0.06 }))}
      band={steps.map(({ day, survival }) => ({
        day,
        spawns: 5,
        low: survival - 0.3,
        middle: survival - 0.1,
        high: Math.min(1, survival + 0.1),
      }))}
      unknown={[{ from: 19, to: 26 }]}
    />
  );
}

function repeatDots(): ReactNode {
  const random = seededChance(9);
  const scorers = ['Ines', 'Tomas'];
  const dots = Array.from({ length: 24 }, (_, k) => ({
    fishId: String(k % 6),
    tag: `RB6-A-0${(k % 6) + 1}`,
    scorer: scorers[k % 2]!,
    value: Math.round((4 + (k % 6) * 0.6 + random()) * 10) / 10,
    on: `2026-03-${String(10 + Math.floor(k / 6)).padStart(2, '0')}`,
  }));
  return (
    <RepeatDots
      title="Repeated scores: dorsal"
      dots={dots}
      scorers={scorers}
      words={(value) => `${value} of 9`}
    />
  );
}

function careTimeline(): ReactNode {
  const at = (days: number): number => start + days * DAY;
  const row = (id: string, label: string, about: number, happened: number | null) => ({
    id,
    label,
    happened: happened === null ? null : at(happened),
    expected: { from: at(about - 1), about: at(about), to: at(about + 1) },
    loose: happened === null,
    published: [{ from: at(about - 0.5), to: at(about) }],
  });
  return (
    <CareTimeline
      rows={[
        row('hatched', 'Look for hatching', 2, 1.6),
        row('free', 'Fry swim freely', 4, null),
        row('feed', 'First feeding of the smallest live food that the keeper has', 5, null),
      ]}
      zero={start}
      zeroLabel="spawning"
      now={at(3)}
      range={[at(-1), at(9)]}
      timeText={(time) => new Date(time).toISOString().slice(0, 10)}
    />
  );
}

function forecastFan(): ReactNode {
  const of = (rise: number) =>
    Array.from({ length: 9 }, (_, generation) => {
      const median = 0.12 + rise * generation;
      const half = 0.012 * generation;
      return {
        generation,
        median,
        bands: [0.7, 1.3, 2].map((times, k) => ({
          percent: [50, 80, 95][k]!,
          low: median - times * half,
          high: median + times * half,
        })),
      };
    });
  return (
    <ForecastFan
      title="Mean F"
      name="the plan"
      points={of(0.02)}
      other={{ name: 'as so far', points: of(0.05) }}
      words={(value) => `${Math.round(value * 100)} %`}
    />
  );
}

function worthAgainstKinship(): ReactNode {
  const points = Array.from({ length: 7 }, (_, k) => ({
    worth: 8 - 6 / (1 + k),
    kinship: 0.08 + 0.02 * k,
  }));
  return <WorthAgainstKinship title="Worth against kinship" points={points} now={points[3]!} />;
}

/** Charts in their states, with invented figures. */
export const chartStages: Readonly<Record<string, () => ReactNode>> = {
  water: waterPlot,
  curve: survivalCurve,
  frontier: worthAgainstKinship,
  repeats: repeatDots,
  scorers: () => (
    <ScorerDifferences
      title="Differences between scorers"
      unit="points"
      pairs={[
        {
          first: 'Ines',
          second: 'Tomas',
          fish: 12,
          difference: 0.4,
          interval: { low: -0.1, high: 0.9 },
        },
        { first: 'Ines', second: 'Maru', fish: 3, difference: -0.7, interval: null },
      ]}
    />
  ),
  timeline: careTimeline,
  fan: forecastFan,
  drawnFish: () => <DrawnFishStage />,
  outcross: () => (
    <OutcrossSteps
      title="Spread, mean of the young"
      sameFigures="The table has the same figures."
      line={172}
      partner={148}
      steps={[
        { name: 'cross', value: 161, error: 4 },
        { name: 'back 1', value: 167, error: 3 },
        { name: 'back 2', value: 170, error: 3 },
      ]}
      words={(value) => `${value}°`}
    />
  ),
  routes: () => (
    <RouteChances
      title="Chance of each route"
      sameFigures="The list has the same figures."
      routes={[
        { key: 'a', name: 'T-1 × T-2, then brother × sister', chance: 0.62, low: 0.58, high: 0.66 },
        {
          key: 'b',
          name: 'T-1 × T-2 and T-3 × T-4 apart, then crossed after 2 generations',
          ...{ chance: 0, low: 0, high: 0.05 },
        },
      ]}
    />
  ),
  youngWorths: () => (
    <YoungWorths
      title="What each young is worth to the line"
      fishId="b"
      sameFigures="The table on the page has the same figures."
      groups={[
        {
          ...{ name: 'Males', keep: 1 },
          young: [2.4, -0.6, -1.5].map((worth, k) => ({
            ...{ id: 'abc'[k]!, tag: `T-0${k + 1}`, worth, note: k === 0 ? 'keep' : null },
            bands: [0.6745, 1.2816, 1.96].map((errors, band) => ({
              percent: [50, 80, 95][band]!,
              low: worth - errors * 0.8,
              high: worth + errors * 0.8,
            })),
          })),
        },
        { name: 'Females', keep: 2, young: [] },
      ]}
    />
  ),
  genotypes: () => (
    <GenotypeBar
      order={['Dt/Dt', 'Dt/dt', 'dt/dt']}
      shares={[
        { genotype: 'Dt/Dt', probability: 0.25 },
        { genotype: 'Dt/dt', probability: 0.5 },
        { genotype: 'dt/dt', probability: 0.25 },
      ]}
    />
  ),
};
