import { normalCurve } from '@linewright/mating';
import { seededChance } from '@linewright/pedigree';
import type { ReactNode } from 'react';
import {
  CorrelationScale,
  HeritabilityCurve,
  YoungCurve,
  InbreedingCost,
  InbreedingSize,
  RelativeShares,
  TraitTrend,
  ValueAmongKin,
  type KinValue,
  type TrendGeneration,
} from '../index.js';

const random = seededChance(27);
const rough = (): number => random() + random() + random() - 1.5;
const degrees = (value: number): string => `${value > 0 ? '+' : ''}${value.toFixed(1)} degrees`;

const cells = Array.from({ length: 20 }, (_, k) => {
  const heritability = (k + 0.5) / 20;
  return {
    heritability,
    probability: Math.exp(-(((heritability - 0.34) / 0.13) ** 2) / 2) / 6.6,
    before: Math.exp(-(((heritability - 0.28) / 0.15) ** 2) / 2) / 7.5,
  };
});

const kin = (name: string, count: number, mean: number, spread: number): KinValue[] =>
  Array.from({ length: count }, (_, k) => ({
    id: `${name}-${k}`,
    tag: `${name}-${String(k + 1).padStart(2, '0')}`,
    value: mean + spread * rough(),
  }));
const sibs = kin('RB6-A', 14, 4, 5);
const fish = {
  id: 'RB6-A-3',
  tag: 'RB6-A-04',
  value: sibs[3]!.value,
  bands: [
    { percent: 50, low: sibs[3]!.value - 3, high: sibs[3]!.value + 3 },
    { percent: 80, low: sibs[3]!.value - 6, high: sibs[3]!.value + 6 },
    { percent: 95, low: sibs[3]!.value - 9.4, high: sibs[3]!.value + 9.4 },
  ],
};
const line = [...sibs, ...kin('RB6-B', 46, 0, 6)];

const generations: TrendGeneration[] = [162, 164, 170, 169, 176].map((mean, k, all) => ({
  generation: k,
  fish: 24 + 3 * k,
  scored: 12 + k,
  score: { mean, half: 3 - 0.3 * k },
  value: { mean: 0.7 * (mean - 162) + (k % 2), half: 2.2 },
  expected: k === 0 ? null : 2.6,
  came: k === 0 ? null : mean - all[k - 1]!,
}));

const broods = [0, 0, 0.03, 0.06, 0.125, 0.125, 0.19, 0.25, 0.25, 0.31].map((f, k) => {
  const counted = 40 + Math.round(160 * random());
  const alive = Math.round(counted * Math.min(0.95, 0.8 * Math.exp(-1.1 * f) + 0.12 * rough()));
  return { id: `b${k}`, tag: `RB-${k + 1}`, inbreeding: f, counted, alive };
});
const curve = Array.from({ length: 27 }, (_, k) => {
  const inbreeding = k / 80;
  return {
    inbreeding,
    value: 0.79 * Math.exp(-1.1 * inbreeding),
    low: (0.79 - 0.05) * Math.exp(-2.1 * inbreeding),
    high: (0.79 + 0.05) * Math.exp(-0.2 * inbreeding),
    smallest: 0.79 * Math.exp(-1.7 * inbreeding),
  };
});

/** What breeding values are drawn as, on invented figures. */
export const meritStages: Readonly<Record<string, () => ReactNode>> = {
  heritability: () => (
    <HeritabilityCurve
      title="How much of the spread is passed on"
      cells={cells}
      before={cells.map(({ heritability, before }) => ({ heritability, likely: before }))}
      mean={0.33}
      bands={[
        { percent: 50, low: 0.25, high: 0.42 },
        { percent: 80, low: 0.18, high: 0.5 },
        { percent: 95, low: 0.1, high: 0.6 },
      ]}
    />
  ),
  together: () => (
    <CorrelationScale
      title="Spread and length together"
      correlations={[
        { part: 'What is inherited', correlation: -0.46, low: -0.83, high: -0.09 },
        { part: 'What a brood shares', correlation: 0.98, low: null, high: null },
        { part: 'All else', correlation: 0.21, low: 0.02, high: 0.4 },
      ]}
      words={(correlation) => correlation.toFixed(2)}
    />
  ),
  value: () => (
    <ValueAmongKin
      title="What RB6-A-04 passes on"
      fish={fish}
      sibs={sibs}
      line={line}
      words={degrees}
      scale="its young against the line’s mean, degrees"
    />
  ),
  'expected young': () => (
    <YoungCurve
      title="Spread of the young"
      young={{ curve: normalCurve(176, 49), mean: 176, deviation: 7 }}
      line={{ curve: normalCurve(168, 81), mean: 168, deviation: 9 }}
      low={175}
      high={null}
      scale="degrees"
      words={(score) => `${score.toFixed(0)} degrees`}
    />
  ),
  'value of two fish': () => (
    <ValueAmongKin
      title="What RB6-A-04 passes on"
      fish={fish}
      sibs={[]}
      line={line.slice(3, 5)}
      words={degrees}
      scale="its young against the line’s mean, degrees"
    />
  ),
  trend: () => (
    <TraitTrend
      title="Spread of the tail, line RB"
      generations={generations}
      change={degrees}
      words={(value) => `${value.toFixed(1)} degrees`}
      bandPercent={95}
      unit="degrees"
    />
  ),
  'cost of inbreeding': () => (
    <InbreedingCost
      title="What inbreeding costs"
      what="young that swam free, of those that hatched"
      whose="F of the young"
      broods={broods}
      curve={curve}
    />
  ),
  'size and inbreeding': () => (
    <InbreedingSize
      title="Inbreeding and body length"
      what="mean body length of a brood, mm"
      whose="F of the young"
      broods={broods.map(({ alive, ...brood }) => ({ ...brood, size: 34 + alive / 30 }))}
      curve={curve.map(({ inbreeding }) => ({
        inbreeding,
        value: 38 - 6 * inbreeding,
        low: 37 - 8 * inbreeding,
        high: 39 - 4 * inbreeding,
        smallest: 38 - 9 * inbreeding,
      }))}
      words={(size) => `${size.toFixed(1)} mm`}
    />
  ),
  relatives: () => (
    <RelativeShares
      title="Whose scores make this value"
      relatives={[
        { id: 'a', fish: 'RB6-A-04', relation: 'itself', scores: 2, moves: 3.4 },
        { id: 'b', fish: 'RB5-B-11', relation: 'sire', scores: 1, moves: 1.9 },
        { id: 'c', fish: 'RB6-A-07', relation: 'full sib', scores: 1, moves: -0.8 },
        { id: 'd', fish: 'RB5-B-02', relation: 'dam', scores: 1, moves: 0.6 },
      ]}
      others={{ count: 9, moves: 0.7 }}
      words={degrees}
    />
  ),
};
