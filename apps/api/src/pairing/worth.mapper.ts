import type { PassingOfPair, WorthOfPair } from '@linewright/mating';
import { inbreedingCost } from '@linewright/mating';
import { toTrait } from '../shapes/score.mapper.js';
import type { Judged } from './judging.service.js';
import type {
  NotCountedTraitModel,
  PairBasisModel,
  PassingOfPairModel,
  TraitOfPairModel,
  WorthOfPairModel,
} from './worth.model.js';

export const toWorth = (worth: WorthOfPair, judged: Judged): WorthOfPairModel => ({
  points: worth.worth,
  standardError: worth.standardError,
  likeBest: worth.likeBest ?? null,
  traits: worth.traits.flatMap((one) => toTraitOfPair(one, judged)),
  looks: worth.looks.map((look) => ({ ...look })),
  choice: worth.choice,
  inbreeding: worth.inbreeding,
  raised: worth.raised,
});

const toTraitOfPair = (
  { traitId, young, points }: WorthOfPair['traits'][number],
  { traits, basis }: Judged,
): TraitOfPairModel[] => {
  const trait = traits.get(traitId);
  const aim = basis.purpose.traits.find((one) => one.traitId === traitId);
  const line = basis.worth.traits.find((one) => one.traitId === traitId)?.line;
  if (trait === undefined || aim === undefined || line === undefined) return [];
  return [
    {
      trait: toTrait(trait),
      mean: young.mean,
      meanError: Math.sqrt(young.between),
      deviation: Math.sqrt(young.within),
      inheritedShare: young.within > 0 ? young.parts.mendelian / young.within : 0,
      lineMean: line.mean,
      lineDeviation: line.deviation,
      low: aim.low,
      high: aim.high,
      points,
    },
  ];
};

export const toPassing = (passing: PassingOfPair): PassingOfPairModel => ({
  ...passing,
  fryFor: passing.fryFor.map((one) => ({ ...one })),
});

export const toPairBasis = ({ basis, traits }: Judged): PairBasisModel => {
  const { purpose, worth, figures } = basis;
  const aimed = purpose.traits.flatMap((aim) => {
    const known = worth.traits.find(({ traitId }) => traitId === aim.traitId);
    return known === undefined ? [] : [{ ...known, aim }];
  });
  const cost = inbreedingCost(purpose.inbreedingCost, aimed);
  return {
    lineId: basis.lineId,
    version: basis.version,
    inbreedingCost: cost.points,
    costBasis: cost.basis,
    errorsTogether: worth.traits.every(({ errorsTogether }) => errorsTogether !== undefined),
    keep: Math.max(1, Math.ceil(purpose.keep / purpose.broods)),
    fry: figures.fry,
    survival: figures.survival,
    load: figures.load,
    countedBroods: figures.broods,
    notCounted: toNotCounted(basis.notCounted, traits),
  };
};

export const toNotCounted = (
  list: Judged['basis']['notCounted'],
  traits: Judged['traits'],
): NotCountedTraitModel[] =>
  list.flatMap(({ traitId, reason }) => {
    const trait = traits.get(traitId);
    return trait === undefined ? [] : [{ trait: toTrait(trait), reason }];
  });
