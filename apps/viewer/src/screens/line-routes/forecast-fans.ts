import type { Fan, StrategyForecast } from '../../api/line-routes.js';
import type { FanPoint } from '../../drawings/index.js';

type Generation = StrategyForecast['generations'][number];

const toPoint = (generation: number, { median, bands }: Fan): FanPoint => ({
  generation,
  median,
  bands: bands.map(({ probability, low, high }) => ({
    percent: Math.round(probability * 100),
    low,
    high,
  })),
});

/** One figure of each generation, as a fan. */
export const fanPoints = (
  { generations }: StrategyForecast,
  of: (generation: Generation) => Fan | undefined,
): FanPoint[] =>
  generations.flatMap((each) => {
    const fan = of(each);
    return fan === undefined ? [] : [toPoint(each.generation, fan)];
  });

/** What is said of effective size: the middle and its band of 80. */
export const sizeText = (size: Fan | null): string => {
  if (size === null) return 'kinship does not rise in some of the lines, so it has none';
  const band = size.bands.find(({ probability }) => probability === 0.8);
  const middle = size.median.toFixed(1);
  return band === undefined
    ? middle
    : `${middle}; in 80 of 100 lines ${band.low.toFixed(1)} to ${band.high.toFixed(1)}`;
};
