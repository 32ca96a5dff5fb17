import type { NumberToKeep, YoungToKeep } from '../api/keeping.js';
import type { YoungWorthGroup } from '../drawings/index.js';

/** So many standard errors to each side hold the true worth in so many of 100 cases, as far as errors are normal. */
const BANDS = [
  { percent: 50, errors: 0.6745 },
  { percent: 80, errors: 1.2816 },
  { percent: 95, errors: 1.96 },
];

const NOTES: Readonly<Record<YoungToKeep['advice'], string | null>> = {
  KEEP: 'keep',
  CANNOT_TELL: null,
  OTHERS_FIRST: null,
  LAST_CARRIER: 'likely the last carrier',
};

const toWorth = ({ fish, worth, standardError, advice }: YoungToKeep) => ({
  ...{ id: fish.id, tag: fish.tag, worth, note: NOTES[advice] },
  bands: BANDS.map(({ percent, errors }) => ({
    percent,
    low: worth - errors * standardError,
    high: worth + errors * standardError,
  })),
});

/** Young as they are drawn: males, females, and those of no known sex, with the number to keep of each. */
export function worthGroups(
  young: readonly YoungToKeep[],
  number: NumberToKeep | null,
): YoungWorthGroup[] {
  const { males = 0, females = 0 } = number ?? {};
  const of = (...sexes: YoungToKeep['fish']['sex'][]) =>
    young.filter(({ fish }) => sexes.includes(fish.sex)).map(toWorth);
  return [
    { name: 'Males', young: of('MALE'), keep: males },
    { name: 'Females', young: of('FEMALE'), keep: females },
    {
      name: 'Without a known sex',
      young: of('UNSEXED', 'UNCERTAIN'),
      keep: males + females,
    },
  ];
}
