import { allGenotypes, formatGenotype, type Locus } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { notFound } from '../errors/request-error.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { LociService } from '../loci/loci.service.js';
import { type FishInUse, fishInUse } from '../stock/fish-in-use.js';
import type { StockEvidence } from './evidence.js';
import { EvidenceService } from './evidence.service.js';
import { kinOfRecords } from './kin.js';
import { PosteriorsService } from './posteriors.service.js';
import type { CarrierAnswer } from './task.js';
import type { ChanceOfCarrier, WhoCarriesModel } from './who-carries.model.js';

/** Which allele, in which fish. */
export interface CarriersAsked {
  readonly locusId: string;
  /** Null: the last of the locus, which is the recessive one of the catalogue's. */
  readonly alleleId: string | null;
  readonly lineId: string | null;
  /** Chances below this are counted and not listed. */
  readonly least: number;
}

/** Fish of a line among whom it is worked out which is the only one. */
const MOST_AMONG = 400;
/** From here on a fish counts as a carrier: looks can be misread, so hardly any is one for certain. */
const SURE = 0.95;

/** Who of the fish in use carries an allele. */
@Injectable()
export class WhoCarriesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly loci: LociService,
    private readonly evidence: EvidenceService,
    private readonly posteriors: PosteriorsService,
  ) {}

  async of(asked: CarriersAsked, by: string): Promise<WhoCarriesModel> {
    const stock = await this.evidence.stock();
    const evidence = stock.byLocus.get(asked.locusId);
    const locus = evidence?.locus ?? (await this.loci.find(asked.locusId));
    const allele = alleleOf(locus, asked.alleleId);
    const base = {
      ...{ locusId: locus.id, locusName: locus.name, alleles: [...locus.alleles] },
      ...{ alleleId: allele.id, recordCount: evidence?.records.length ?? 0 },
      ...{ founders: evidence?.founderWords ?? null, assumed: [...(evidence?.assumed ?? [])] },
    };
    const nobody = {
      ...{ inUse: 0, sure: 0, possible: 0, unlikely: 0, notKnown: 0 },
      ...{ method: null, carriers: [], fish: [] },
    };
    if (evidence === undefined)
      return { ...base, ...nobody, whyNone: whyNone(stock, locus), waiting: null };
    const { answer, waiting } = await this.posteriors.ask(stock, evidence, { kind: 'all' }, by);
    if (waiting !== null)
      return { ...base, ...nobody, whyNone: null, waiting: toComputation(waiting) };
    if (answer.all === undefined)
      return { ...base, ...nobody, whyNone: answer.impossible ?? null, waiting: null };
    const all = await fishInUse(this.dataSource.manager, asked.lineId);
    const told = kinOfRecords(stock, evidence.records);
    const known = all.filter(({ id }) => told.has(id));
    const chances = chancesOf(known, answer, locus, allele.symbol);
    const carriers = chances.filter(({ probability }) => probability >= asked.least);
    return {
      ...base,
      inUse: all.length,
      notKnown: all.length - known.length,
      sure: chances.filter(({ probability }) => probability >= SURE).length,
      possible: chances.length,
      unlikely: chances.length - carriers.length,
      ...{ method: answer.method?.note ?? null, whyNone: null, waiting: null, carriers, fish: all },
    };
  }

  /** For each of these fish the chance that it is the only one in use of its line that carries the allele; those not known are left out. */
  async only(
    { locusId, alleleId: allele, fish }: Pick<WhoCarriesModel, 'locusId' | 'alleleId' | 'fish'>,
    rows: readonly ChanceOfCarrier[],
    by: string,
  ): Promise<ReadonlyMap<string, number>> {
    const stock = await this.evidence.stock();
    const evidence = stock.byLocus.get(locusId);
    const lines = new Set(rows.flatMap(({ lineId }) => (lineId === null ? [] : [lineId])));
    const found = new Map<string, number>();
    if (evidence === undefined) return found;
    for (const lineId of lines) {
      const among = fish
        .filter((one) => one.lineId === lineId && stock.tags.has(one.id))
        .map(({ id }) => id);
      if (among.length > MOST_AMONG) continue;
      const question = { kind: 'sole', allele, among } as const;
      const { answer } = await this.posteriors.ask(stock, evidence, question, by);
      answer?.sole?.forEach((chance, k) => found.set(among[k]!, chance));
    }
    return found;
  }
}

function alleleOf(locus: Locus, id: string | null): Locus['alleles'][number] {
  const found =
    id === null ? locus.alleles.at(-1) : locus.alleles.find((allele) => allele.id === id);
  if (found === undefined) throw notFound('allele of this locus', id ?? locus.id);
  return found;
}

const whyNone = ({ notComputed }: StockEvidence, { id, name }: Locus): string =>
  notComputed.find(({ locusId }) => locusId === id)?.reason ??
  `Nothing is recorded of ${name} yet: record what fish show or carry, on their pages or at the bench.`;

/** Those who may carry it, the surest first, then by tag. */
function chancesOf(
  fish: readonly FishInUse[],
  { all, genotypes = [] }: CarrierAnswer,
  locus: Locus,
  symbol: string,
): ChanceOfCarrier[] {
  const texts = new Map(
    allGenotypes(locus).map((one) => [
      formatGenotype(locus, one),
      one.filter((id) => locus.alleles.find((allele) => allele.id === id)?.symbol === symbol)
        .length,
    ]),
  );
  const copies = genotypes.map((text) => texts.get(text) ?? 0);
  const chance = (row: readonly number[], least: number): number =>
    Math.min(
      1,
      row.reduce((sum, one, g) => (copies[g]! >= least ? sum + one : sum), 0),
    );
  return fish
    .flatMap((one) => {
      const row = all?.[one.id];
      const probability = row === undefined ? 0 : chance(row, 1);
      return probability <= 0 ? [] : [{ ...one, probability, twice: chance(row!, 2) }];
    })
    .toSorted((a, b) => b.probability - a.probability || b.twice - a.twice);
}
