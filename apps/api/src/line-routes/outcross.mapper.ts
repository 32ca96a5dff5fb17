import type { BelievedLocus, OutcrossCourse, OutcrossPoint } from '@linewright/mating';
import type { InbreedingBasis } from '../graphql/enums.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { toLine } from '../shapes/line.mapper.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { alleleNames, toStrategy } from './forecast.mapper.js';
import { generationDays, parentGenerations } from './generation-days.js';
import type { OutcrossStanding } from './line-outcross.service.js';
import type { OutcrossCourseModel } from './outcross-course.model.js';
import { toChances } from './line-routes.mapper.js';
import type {
  LineOutcrossModel,
  OutcrossChanceModel,
  OutcrossForecastModel,
  OutcrossPointModel,
} from './outcross.model.js';

/** Names and the basis, which are read beside the answer. */
export interface OutcrossNames {
  readonly fish: ReadonlyMap<string, NamedFishModel>;
  readonly traits: ReadonlyMap<string, string>;
  readonly basis: InbreedingBasis;
}

/** Ids of partner, mate and the fish gone back to; of a described partner none. */
export const fishOfOutcross = ({ partner, believed, fish }: OutcrossStanding): string[] => {
  const ofLine = fish === null ? [] : [fish.mate, fish.back];
  return [
    ...(partner === null ? [] : [partner.id]),
    ...ofLine.map((at) => believed!.belief.fish[at]!),
  ];
};

export const toLineOutcross = (
  standing: OutcrossStanding,
  names: OutcrossNames,
): LineOutcrossModel => {
  const { line, purpose, partner, believed, fish, courses, waiting } = standing;
  const named = (at: number | undefined): NamedFishModel | null =>
    names.fish.get(at === undefined ? '' : believed!.belief.fish[at]!) ?? null;
  const loci = believed?.belief.loci ?? [];
  const course = (one: OutcrossCourse | undefined): OutcrossCourseModel | null =>
    one === undefined ? null : toCourse(one, loci, names.traits);
  return {
    line: toLine(line),
    purposeVersion: purpose.version,
    whyNone: standing.whyNone,
    waiting: waiting === null ? null : toComputation(waiting),
    partner: partner === null ? null : (names.fish.get(partner.id) ?? null),
    mate: named(fish?.mate),
    back: named(fish?.back),
    basis: names.basis,
    lineInbreeding: believed === null ? null : meanInbreeding(believed),
    ceiling: purpose.content.ceiling,
    parentGenerations: parentGenerations(purpose.content.rules),
    backcrosses: course(courses?.back),
    within: course(courses?.within),
    chance: toChance(standing),
    whyNoChance: standing.whyNoChance,
    forecast: toForecasts(standing, names.traits),
    whyNoForecast: standing.whyNoForecast,
    cautions: [...(partner?.cautions ?? [])],
    leftOut: [...(believed?.leftOut ?? [])],
  };
};

const meanInbreeding = ({
  belief: { coancestry, fish },
  ofLine,
}: NonNullable<OutcrossStanding['believed']>): number | null => {
  const own = [...fish.keys()].filter((at) => ofLine[at] === 1);
  const sum = own.reduce((all, at) => all + 2 * coancestry[at * fish.length + at]! - 1, 0);
  return own.length === 0 ? null : sum / own.length;
};

const toCourse = (
  { generations, traits, alleles }: OutcrossCourse,
  loci: readonly BelievedLocus[],
  traitNames: ReadonlyMap<string, string>,
): OutcrossCourseModel => ({
  generations: generations.map((one) => ({
    ...one,
    traits: one.traits.map((trait) => ({ ...trait })),
    alleles: one.alleles.map((allele) => ({ ...allele })),
  })),
  traits: traits.map((trait) => ({ ...trait, name: traitNames.get(trait.traitId) ?? '' })),
  alleles: alleles.map((allele) => ({ ...allele, ...alleleNames(loci, allele) })),
});

const toChance = ({ answer, task, purpose }: OutcrossStanding): OutcrossChanceModel | null => {
  const chance = answer?.chance ?? null;
  const goal = task?.goal ?? null;
  if (chance === null || goal === null) return null;
  return {
    share: goal.share,
    generations: task!.lengths.generations,
    ...toChances(chance, generationDays(purpose.content.rules)),
  };
};

const toForecasts = (
  { answer, task, believed }: OutcrossStanding,
  traitNames: ReadonlyMap<string, string>,
): OutcrossForecastModel | null => {
  const forecast = answer?.forecast ?? null;
  if (forecast === null || task === null) return null;
  const { loci } = believed!.belief;
  const { without, withIt, advice } = forecast;
  const points = (list: readonly OutcrossPoint[]): OutcrossPointModel[] =>
    list.map((point) => toPoint(point, loci, traitNames));
  return {
    without: toStrategy(without, task.broods, loci, traitNames),
    withIt: toStrategy(withIt, task.broods, loci, traitNames),
    verdict: advice.verdict,
    needs: points(advice.needs),
    gains: points(advice.gains),
    costs: points(advice.costs),
  };
};

const toPoint = (
  point: OutcrossPoint,
  loci: readonly BelievedLocus[],
  traitNames: ReadonlyMap<string, string>,
): OutcrossPointModel => ({
  figure: point.kind,
  name: nameOf(point, loci, traitNames),
  without: point.without,
  withIt: point.with,
});

const nameOf = (
  { kind, subject }: OutcrossPoint,
  loci: readonly BelievedLocus[],
  traitNames: ReadonlyMap<string, string>,
): string => {
  if (kind !== 'allele') return traitNames.get(subject) ?? '';
  const [locusId = '', alleleId = ''] = subject.split(' ');
  const { symbol, locusName } = alleleNames(loci, { locusId, alleleId });
  return `${symbol} (${locusName})`;
};
