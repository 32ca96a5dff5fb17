import type { BelievedLocus, Fan, LineForecast, WatchedAllele } from '@linewright/mating';
import { toComputation } from '../jobs/computation.mapper.js';
import { toLine } from '../shapes/line.mapper.js';
import type {
  ForecastFanModel,
  LineForecastModel,
  StrategyForecastModel,
} from './forecast.model.js';
import type { ForecastStanding } from './forecasts.service.js';

export const toForecast = (
  standing: ForecastStanding,
  traitNames: ReadonlyMap<string, string>,
): LineForecastModel => {
  const { line, purpose, believed, task, answer, whyNone, waiting } = standing;
  const strategy = (forecast: LineForecast, broods: number): StrategyForecastModel =>
    toStrategy(forecast, broods, believed.belief.loci, traitNames);
  const soFar = answer?.soFar ?? null;
  return {
    line: toLine(line),
    whyNone,
    waiting: waiting === null ? null : toComputation(waiting),
    plan: answer === null || task === null ? null : strategy(answer.plan, task.broods),
    soFar: soFar === null || task?.soFar == null ? null : strategy(soFar, task.soFar.broods),
    bred: task?.soFar ?? null,
    kinshipRise: purpose.kinshipRise,
    leftOut: [...believed.leftOut],
  };
};

/** An allele as it is written, with the name of its locus. */
export const alleleNames = (
  loci: readonly BelievedLocus[],
  { locusId, alleleId }: WatchedAllele,
): { locusName: string; symbol: string } => {
  const { locus } = loci.find((one) => one.locus.id === locusId)!;
  const symbol = locus.alleles.find(({ id }) => id === alleleId)?.symbol ?? alleleId;
  return { locusName: locus.name, symbol };
};

export const toStrategy = (
  { simulations, generations, effectiveSize }: LineForecast,
  broods: number,
  loci: readonly BelievedLocus[],
  traitNames: ReadonlyMap<string, string>,
): StrategyForecastModel => ({
  simulations,
  broods,
  effectiveSize: effectiveSize === null ? null : toFan(effectiveSize),
  generations: generations.map(({ generation, inbreeding, kinship, traits, alleles }) => ({
    generation,
    inbreeding: toFan(inbreeding),
    kinship: toFan(kinship),
    traits: traits.map(({ traitId, mean }) => ({
      traitId,
      name: traitNames.get(traitId) ?? '',
      mean: toFan(mean),
    })),
    alleles: alleles.map((allele) => {
      const { locusId, stillThere, low, high } = allele;
      return { locusId, ...alleleNames(loci, allele), stillThere, low, high };
    }),
  })),
});

const toFan = ({ mean, standardError, median, bands }: Fan): ForecastFanModel => ({
  mean,
  standardError,
  median,
  bands: bands.map((band) => ({ ...band })),
});
