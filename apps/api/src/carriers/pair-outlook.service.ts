import {
  catalogue,
  fractionToNumber,
  type GenotypeSet,
  type JointPosterior,
  type Locus,
  pairWarnings,
  toFraction,
  type WeightedGenotypeInput,
} from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { CarriersService } from './carriers.service.js';
import type { LocusEvidence, StockEvidence } from './evidence.js';
import { NEAR_KIN, nearRecords } from './kin.js';
import { classOutlooks, type HidingLocus, leftOutWords, pairShares } from './mixture.js';
import type { PairLocusModel, PairOutlookModel } from './outlook.model.js';
import { type Answered, PosteriorsService } from './posteriors.service.js';

/** A genotype less likely than this is not warned of. */
const UNLIKELY = 0.01;

@Injectable()
export class PairOutlookService {
  constructor(
    private readonly carriers: CarriersService,
    private readonly posteriors: PosteriorsService,
  ) {}

  async outlook(
    sireId: string,
    damId: string,
    broodSize: number,
    person: SignedInPerson,
  ): Promise<PairOutlookModel> {
    if (!Number.isInteger(broodSize) || broodSize < 1 || broodSize > 5_000) {
      throw fieldError({
        field: 'broodSize',
        message: `"${broodSize}" fry: give a whole number from 1 to 5,000.`,
      });
    }
    if (sireId === damId)
      throw fieldError({ field: 'damId', message: 'Sire and dam are the same fish: choose two.' });
    const stock = await this.carriers.stockWith(sireId, damId);
    const loci: PairLocusModel[] = [];
    const leftOut = [...stock.notComputed];
    const sire: Record<string, GenotypeSet[string]> = {};
    const dam: Record<string, GenotypeSet[string]> = {};
    const found = new Map<string, { evidence: LocusEvidence; answered: Answered }>();
    for (const evidence of stock.byLocus.values()) {
      const near = [sireId, damId].some(
        (id) => nearRecords(stock, evidence.records, id, 1, NEAR_KIN).length > 0,
      );
      if (!near) {
        leftOut.push({
          locusId: evidence.locus.id,
          name: evidence.locus.name,
          code: 'NOTHING_SEEN',
          reason: `${evidence.locus.name}: nothing was seen on either fish or their near kin.`,
        });
        continue;
      }
      const question = { kind: 'pair', sire: sireId, dam: damId } as const;
      const answered = await this.posteriors.ask(stock, evidence, question, person.name);
      found.set(evidence.locus.id, { evidence, answered });
    }
    for (const { evidence, answered } of found.values()) {
      const { answer, waiting } = answered;
      const joint = answer?.joint ?? [];
      if (joint.length > 0) {
        sire[evidence.locus.id] = marginal(joint, 'sire');
        dam[evidence.locus.id] = marginal(joint, 'dam');
      }
      const { hiding, assumed } = hidingLoci(evidence.locus, (id) => {
        const other = found.get(id);
        return other && { locus: other.evidence.locus, joint: other.answered.answer?.joint ?? [] };
      });
      loci.push({
        ...shapeOf(evidence, joint, hiding, broodSize),
        assumed: [...evidence.assumed, ...assumed],
        founders: evidence.founderWords,
        method: answer?.method?.note ?? null,
        impossible: answer?.impossible ?? null,
        waiting: waiting === null ? null : toComputation(waiting),
      });
    }
    return { loci, leftOut, warnings: warningsOf(sire, dam, stock) };
  }
}

/** What hides a locus, as far as anything is known of it in this pair; the rest is assumed not to. */
const hidingLoci = (
  locus: Locus,
  find: (id: string) => HidingLocus | undefined,
): { hiding: HidingLocus[]; assumed: string[] } => {
  const hiding: HidingLocus[] = [];
  const assumed: string[] = [];
  for (const gate of locus.hiddenBy) {
    const known = find(gate.locus);
    if (known !== undefined && known.joint.length > 0) hiding.push(known);
    else
      assumed.push(
        `Assumed that no young are hidden by ${findHider(gate.locus)}, of which nothing is known in this pair (${gate.why}).`,
      );
  }
  return { hiding, assumed };
};

const findHider = (id: string): string =>
  catalogue.find((one) => one.id === id)?.name.toLowerCase() ?? id;

const shapeOf = (
  { locus }: LocusEvidence,
  joint: readonly JointPosterior[],
  hiding: readonly HidingLocus[],
  broodSize: number,
): Omit<PairLocusModel, 'assumed' | 'founders' | 'method' | 'impossible' | 'waiting'> => {
  const pairs = pairShares(locus, joint);
  const seen = hiding.length === 0 ? pairs : pairShares(locus, joint, hiding);
  const weight = pairs.reduce((sum, one) => sum + one.weight, 0);
  return {
    locusId: locus.id,
    name: locus.name,
    classes: seen.length === 0 ? [] : classOutlooks(locus, seen, broodSize),
    pairs: pairs
      .slice(0, 12)
      .map((one) => ({ sire: one.sire, dam: one.dam, probability: one.weight, ratio: one.ratio })),
    rareLeftOut: leftOutWords(locus, joint, hiding),
    lostShare:
      pairs.reduce((sum, one) => sum + one.weight * one.loss, 0) +
      Math.max(0, 1 - weight) * (joint.length > 0 ? 1 : 0),
    risks: [...locus.risks, ...lethalRisks(locus)],
  };
};

const lethalRisks = (locus: Locus): string[] =>
  locus.viability.flatMap((one) => {
    const survival = fractionToNumber(toFraction(one.survival));
    if (survival === 1) return [];
    return survival === 0
      ? [`${one.genotype} does not live (${one.why}).`]
      : [`Of ${one.genotype} only ${one.survival} live to be scored (${one.why}).`];
  });

const marginal = (
  joint: readonly JointPosterior[],
  role: 'sire' | 'dam',
): WeightedGenotypeInput[] => {
  const sums = new Map<string, WeightedGenotypeInput & { probability: number }>();
  for (const one of joint) {
    const key = one[role].join('/');
    const before = sums.get(key)?.probability ?? 0;
    sums.set(key, { genotype: one[role], probability: before + one.probability });
  }
  const likely = [...sums.values()].filter((one) => one.probability >= UNLIKELY);
  const total = likely.reduce((sum, one) => sum + one.probability, 0);
  return likely.map((one) => ({ ...one, probability: one.probability / total }));
};

/** The catalogue's warnings, for what each fish may be with at least one chance in a hundred. */
const warningsOf = (
  sire: GenotypeSet,
  dam: GenotypeSet,
  stock: StockEvidence,
): PairOutlookModel['warnings'] => {
  const ofCatalogue = (set: GenotypeSet): GenotypeSet =>
    Object.fromEntries(
      Object.entries(set).filter(([id]) => stock.byLocus.get(id)?.locus.origin === 'catalogue'),
    );
  return pairWarnings({ genotypes: ofCatalogue(sire) }, { genotypes: ofCatalogue(dam) }).map(
    ({ severity, title, text, basis }) => ({ severity, title, text, basis }),
  );
};
