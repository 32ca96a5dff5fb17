import { Injectable } from '@nestjs/common';
import { notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { toComputation } from '../jobs/computation.mapper.js';
import type {
  CarrierLocusModel,
  FishCarriersModel,
  GenotypeChanceModel,
} from './carriers.model.js';
import { distance, toAlleleChances, toGenotypeChances } from './chances.js';
import type { EvidenceRecord, LocusEvidence, SetAside, StockEvidence } from './evidence.js';
import { EvidenceService } from './evidence.service.js';
import { bearsOn, NEAR_KIN, nearRecords } from './kin.js';
import { type Answered, PosteriorsService } from './posteriors.service.js';

/** Records tried by leaving each out, nearest first. */
const MOST_TRIED = 24;
/** A record that moves the probabilities less than this did not move them. */
const MOVED = 0.0005;

type Chances = readonly { text: string; probability: number; standardError: number | null }[];

export interface Reason {
  readonly record: EvidenceRecord;
  readonly relation: string;
  readonly weight: number;
  readonly without: GenotypeChanceModel[];
}

export interface Reasons {
  readonly answered: Answered;
  readonly before: GenotypeChanceModel[];
  readonly now: GenotypeChanceModel[];
  readonly reasons: readonly Reason[];
  readonly tried: number;
  readonly nearCount: number;
  readonly setAside: readonly SetAside[];
  readonly assumed: readonly string[];
}

@Injectable()
export class CarriersService {
  constructor(
    private readonly evidence: EvidenceService,
    private readonly posteriors: PosteriorsService,
  ) {}

  /** Every computable locus with records on the fish's kin. */
  async ofFish(fishId: string, person: SignedInPerson): Promise<FishCarriersModel> {
    const stock = await this.stockWith(fishId);
    const loci: CarrierLocusModel[] = [];
    for (const locus of stock.byLocus.values()) {
      if (!bearsOn(stock, locus.records, fishId)) continue;
      loci.push(await this.locusOf(stock, locus, fishId, person));
    }
    return { loci, leftOut: [...stock.notComputed] };
  }

  async locusOf(
    stock: StockEvidence,
    evidence: LocusEvidence,
    fishId: string,
    person: SignedInPerson,
  ): Promise<CarrierLocusModel> {
    const { answer, waiting } = await this.posteriors.ofFish(stock, evidence, fishId, person.name);
    const { locus } = evidence;
    const chances = answer === null ? null : chancesIn(answer, fishId);
    return {
      locusId: locus.id,
      name: locus.name,
      genotypes: chances === null ? [] : toGenotypeChances(locus, chances),
      alleles: chances === null ? [] : toAlleleChances(locus, chances),
      recordCount: evidence.records.length,
      informed: nearRecords(stock, evidence.records, fishId, 1, NEAR_KIN).length > 0,
      method: answer?.method?.note ?? null,
      founders: evidence.founderWords,
      assumed: [...evidence.assumed],
      impossible: answer?.impossible ?? null,
      waiting: waiting === null ? null : toComputation(waiting),
    };
  }

  async reasons(fishId: string, locusId: string, person: SignedInPerson): Promise<Reasons> {
    const stock = await this.stockWith(fishId);
    const evidence = this.locusIn(stock, locusId);
    const all = nearRecords(stock, evidence.records, fishId, Infinity);
    const near = all.slice(0, MOST_TRIED);
    const answered = await this.posteriors.ask(
      stock,
      evidence,
      { kind: 'why', fish: fishId, records: near.map(({ record }) => record.evidence.id) },
      person.name,
    );
    const why = answered.answer?.why;
    const { locus } = evidence;
    const reasons = near.flatMap(({ record, relation }): Reason[] => {
      const without = why?.without[record.evidence.id];
      if (why === undefined || without === undefined) return [];
      const weight = distance(without, why.whole);
      return weight < MOVED
        ? []
        : [{ record, relation, weight, without: toGenotypeChances(locus, without) }];
    });
    const kin = new Set([fishId, ...near.flatMap(({ record }) => record.fishIds)]);
    return {
      answered,
      before: toGenotypeChances(locus, why?.nothing ?? []),
      now: toGenotypeChances(locus, why?.whole ?? []),
      reasons: reasons.toSorted((a, b) => b.weight - a.weight),
      tried: near.length,
      nearCount: all.length,
      setAside: evidence.setAside.filter((one) => one.fishId === null || kin.has(one.fishId)),
      assumed: evidence.assumed,
    };
  }

  async stockWith(...fishIds: readonly string[]): Promise<StockEvidence> {
    const stock = await this.evidence.stock();
    const missing = fishIds.find((id) => !stock.tags.has(id));
    if (missing !== undefined) throw notFound('fish', missing);
    return stock;
  }

  locusIn(stock: StockEvidence, locusId: string): LocusEvidence {
    const found = stock.byLocus.get(locusId);
    if (found === undefined) throw notFound('locus with records', locusId);
    return found;
  }
}

const chancesIn = (answer: NonNullable<Answered['answer']>, fishId: string): Chances | null => {
  if (answer.fish?.[fishId] !== undefined) return answer.fish[fishId];
  const row = answer.all?.[fishId];
  if (row === undefined) return null;
  return (answer.genotypes ?? []).map((text, i) => ({
    text,
    probability: row[i] ?? 0,
    standardError: answer.errors?.[fishId]?.[i] ?? null,
  }));
};
