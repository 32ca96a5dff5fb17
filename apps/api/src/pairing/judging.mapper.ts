import type { GenotypeSet, Locus } from '@linewright/heredity';
import {
  type MidParent,
  type PairingInput,
  type PairingWarning,
  planningEffect,
  type RankedPairing,
  type Reason,
} from '@linewright/mating';
import { toClasses } from '../shapes/heredity.mapper.js';
import type { CrossClassModel } from '../shapes/heredity.model.js';
import type { TraitDefinitionRow } from '../stock/rows/score.entity.js';
import { writeCursor } from '../graphql/page.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { toTrait } from '../shapes/score.mapper.js';
import type { PairList } from './pair-list.service.js';
import type {
  PairingCandidateConnectionModel,
  PairingCandidateModel,
  PairWarningModel,
  ReasonModel,
  TraitMeanModel,
} from './pairing.model.js';
import { toPairBasis } from './worth.mapper.js';

export const toReason = ({ code, text, figures }: Reason): ReasonModel => ({
  code,
  text,
  figure: Object.values(figures).find((value) => typeof value === 'number') ?? null,
});

export const toWarning = (warning: PairingWarning): PairWarningModel => {
  const { code, severity, text, basis } = warning;
  return { code, severity, text, basis, planning: planningEffect(warning) };
};

export const toTraitMeans = (
  means: readonly MidParent[],
  traits: Map<string, TraitDefinitionRow>,
): TraitMeanModel[] =>
  means.flatMap((m) => {
    const trait = traits.get(m.traitId);
    if (trait === undefined || (m.sire === null && m.dam === null)) return [];
    return [
      {
        trait: toTrait(trait),
        sireValue: m.sire?.value ?? null,
        damValue: m.dam?.value ?? null,
        mean: m.mean,
      },
    ];
  });

/** The two of a pair as the heredity lib takes them. */
export const parentsOf = (
  { candidates, loci }: PairingInput,
  sireId: string,
  damId: string,
): { sire: GenotypeSet; dam: GenotypeSet; loci: readonly Locus[] } => {
  const of = (id: string): GenotypeSet => candidates.find((one) => one.id === id)?.genotypes ?? {};
  return { sire: of(sireId), dam: of(damId), loci: loci ?? [] };
};

export const toRowClasses = (
  { expected, sireId, damId }: RankedPairing,
  input: PairingInput,
): CrossClassModel[] =>
  expected.expectation === null
    ? []
    : toClasses(expected.expectation, null, parentsOf(input, sireId, damId));

/** A page of a list of pairs, which begins at `from` in its order. */
export const toCandidates = (
  nodes: readonly PairingCandidateModel[],
  from: number,
  { judged, answer, waiting, away }: PairList,
): PairingCandidateConnectionModel => {
  const edges = nodes.map((node, i) => ({
    node,
    cursor: writeCursor(String(from + i + 1), node.sire.id),
  }));
  const listedCount = answer?.order.length ?? 0;
  return {
    edges,
    pageInfo: {
      hasNextPage: from + nodes.length < listedCount,
      endCursor: edges.at(-1)?.cursor ?? null,
    },
    totalCount: answer?.passed ?? 0,
    listedCount,
    maleCount: answer?.maleCount ?? 0,
    femaleCount: answer?.femaleCount ?? 0,
    unsexedCount: answer?.unsexed ?? 0,
    awayCount: away,
    basis: toPairBasis(judged),
    waiting: waiting === null ? null : toComputation(waiting),
  };
};
