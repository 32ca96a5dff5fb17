import { heterogeneity, HeredityError, type Locus } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { SpawnsService } from '../spawns/spawns.service.js';
import { compareExplanations, fitOf } from './brood-verdict.js';
import { EvidenceService } from './evidence.service.js';
import type { EvidenceRecord, LocusEvidence, StockEvidence } from './evidence.js';
import { placesOf, withDescendants } from './kin.js';
import { classOutlooks, type PairShares, pairShares } from './mixture.js';
import type { BroodLocusModel, BroodOutlookModel } from './outlook.model.js';
import { PosteriorsService } from './posteriors.service.js';

type BroodLocus = Omit<BroodLocusModel, 'heterogeneity'> & {
  heterogeneity:
    | (Omit<NonNullable<BroodLocusModel['heterogeneity']>, 'broods'> & {
        broods: { spawnId: string; counts: number[]; pValue: number; spawn: null }[];
      })
    | null;
};

interface Counted {
  readonly evidence: LocusEvidence;
  readonly record: EvidenceRecord;
  /** In the order of the locus's phenotypes, young with a record of their own included. */
  readonly observed: readonly number[];
}

@Injectable()
export class BroodOutlookService {
  constructor(
    private readonly evidence: EvidenceService,
    private readonly posteriors: PosteriorsService,
    private readonly spawns: SpawnsService,
  ) {}

  async outlook(spawnId: string, person: SignedInPerson): Promise<BroodOutlookModel> {
    await this.spawns.one(spawnId);
    const stock = await this.evidence.stock();
    const loci: BroodLocus[] = [];
    const setAside: string[] = [];
    for (const evidence of stock.byLocus.values()) {
      setAside.push(
        ...evidence.setAside.filter((one) => one.spawnId === spawnId).map((one) => one.why),
      );
      const record = evidence.records.find(
        (one) => one.kind === 'class_count' && one.spawnId === spawnId,
      );
      const observed = record?.counted;
      if (record === undefined || observed === undefined) continue;
      loci.push(await this.locusOf(stock, { evidence, record, observed }, person));
    }
    return { loci: loci as BroodLocusModel[], setAside };
  }

  private async locusOf(
    stock: StockEvidence,
    counted: Counted,
    person: SignedInPerson,
  ): Promise<BroodLocus> {
    const { evidence, record, observed } = counted;
    const { locus } = evidence;
    const [sire = '', dam = ''] = record.fishIds;
    // What was thought of the parents before this brood: no record of it, of its young or of theirs.
    const before = await this.posteriors.ask(
      stock,
      evidence,
      { kind: 'pair', sire, dam, without: recordsOfBrood(stock, evidence, record.spawnId ?? '') },
      person.name,
    );
    const after = await this.posteriors.ask(
      stock,
      evidence,
      { kind: 'pair', sire, dam },
      person.name,
    );
    const waiting = before.waiting ?? after.waiting;
    const prior = pairShares(locus, before.answer?.joint ?? []);
    const posterior = pairShares(locus, after.answer?.joint ?? []);
    const total = observed.reduce((sum, n) => sum + n, 0);
    const [best] = posterior;
    return {
      locusId: locus.id,
      name: locus.name,
      total,
      founders: evidence.founderWords,
      counted: record.text,
      classes: classesOf(locus, prior, observed, total),
      pairs: pairsOf(prior, posterior),
      fit: best === undefined || total === 0 ? null : fitOf(locus, best, observed),
      ...compareExplanations(
        locus,
        observed,
        posterior.slice(0, 4),
        before.answer?.joint ?? [],
        looksOf(evidence, [sire, dam]),
      ),
      heterogeneity: heterogeneityOf(evidence, record, best),
      impossible: before.answer?.impossible ?? after.answer?.impossible ?? null,
      waiting: waiting === null ? null : toComputation(waiting),
    };
  }
}

/**
 * Ids of all records that there are only because of a brood: its counts, those of its young with a record of their own, of all
 * that descend from them, and of broods that one of these is a parent of.
 */
export const recordsOfBrood = (
  { pedigree, spawnOf }: Pick<StockEvidence, 'pedigree' | 'spawnOf'>,
  { records }: Pick<LocusEvidence, 'records'>,
  spawnId: string,
): string[] => {
  const own = pedigree.ids.flatMap((id, i) => (spawnOf.get(id) === spawnId ? [i] : []));
  const descending = withDescendants(pedigree, own);
  return records
    .filter(
      (one) =>
        one.spawnId === spawnId || placesOf(pedigree, one).some((fish) => descending.has(fish)),
    )
    .map((one) => one.evidence.id);
};

const looksOf = (evidence: LocusEvidence, fish: readonly string[]): string[] =>
  evidence.records.flatMap(({ evidence: one }) =>
    one.kind === 'phenotype' && fish.includes(one.fish) ? [one.phenotype] : [],
  );

const classesOf = (
  locus: Locus,
  prior: readonly PairShares[],
  observed: readonly number[],
  total: number,
): BroodLocus['classes'] => {
  const expected = new Map(
    prior.length === 0
      ? []
      : classOutlooks(locus, prior, Math.max(1, Math.min(total, 5_000))).map((one) => [
          one.phenotype,
          one,
        ]),
  );
  return locus.phenotypes.flatMap((phenotype, p) => {
    const one = expected.get(phenotype.name);
    const seen = observed[p] ?? 0;
    if (one === undefined && seen === 0) return [];
    return [
      {
        phenotype: phenotype.name,
        observed: seen,
        expectedShare: one?.probability ?? 0,
        countLow: one?.countLow ?? 0,
        countHigh: one?.countHigh ?? 0,
      },
    ];
  });
};

const pairsOf = (
  prior: readonly PairShares[],
  posterior: readonly PairShares[],
): BroodLocus['pairs'] => {
  const was = new Map(prior.map((one) => [`${one.sire} ${one.dam}`, one.weight]));
  return posterior
    .filter((one) => one.weight >= 0.0005 || (was.get(`${one.sire} ${one.dam}`) ?? 0) >= 0.05)
    .slice(0, 8)
    .map((one) => ({
      sire: one.sire,
      dam: one.dam,
      ratio: one.ratio,
      before: was.get(`${one.sire} ${one.dam}`) ?? 0,
      after: one.weight,
    }));
};

/** All counted broods of the same two fish, held against what the pair most likely is. */
const heterogeneityOf = (
  evidence: LocusEvidence,
  record: EvidenceRecord,
  best: PairShares | undefined,
): BroodLocus['heterogeneity'] => {
  if (best === undefined) return null;
  const same = evidence.records.filter(
    (one) =>
      one.kind === 'class_count' &&
      one.fishIds.join() === record.fishIds.join() &&
      (one.counted ?? []).some((n) => n > 0),
  );
  const shown = evidence.locus.phenotypes.flatMap((_, p) => ((best.shares[p] ?? 0) > 0 ? [p] : []));
  if (same.length < 2 || shown.length < 2) return null;
  const counts = same.map((one) => shown.map((p) => one.counted?.[p] ?? 0));
  try {
    const { g } = heterogeneity(
      counts,
      shown.map((p) => best.shares[p] ?? 0),
    );
    const { statistic, df, pValue } = g.heterogeneity;
    return {
      classes: shown.map((p) => evidence.locus.phenotypes[p]?.name ?? ''),
      ratio: best.ratio,
      g: statistic,
      degreesOfFreedom: df,
      pValue,
      verdict:
        pValue < 0.05
          ? 'The broods differ among themselves more than chance explains: look for a wrong parent, another way of scoring, or losses that hit one class.'
          : 'The broods agree with one another: they may be taken together.',
      broods: same.map((one, i) => ({
        spawnId: one.spawnId ?? '',
        spawn: null,
        counts: counts[i] ?? [],
        pValue: g.perBrood[i]?.pValue ?? 1,
      })),
    };
  } catch (error) {
    if (error instanceof HeredityError) return null;
    throw error;
  }
};
