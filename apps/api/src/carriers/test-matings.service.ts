import {
  allGenotypes,
  formatGenotype,
  type Genotype,
  HeredityError,
  type GenotypeSet,
  type Locus,
  type RankedTestMating,
  testMatingSteps,
  type WeightedGenotypeInput,
} from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { partnersHere } from '../stock/partner-rows.js';
import { GenotypesService } from '../loci/genotypes.service.js';
import { LociService } from '../loci/loci.service.js';
import { toComputation } from '../jobs/computation.mapper.js';
import { besideTheLoop } from '../jobs/beside.js';
import { setsAtHiders } from './at-hiders.js';
import { CarriersService } from './carriers.service.js';
import type {
  TestMatingModel,
  TestMatingsInput,
  TestMatingsModel,
} from './contradictions.model.js';
import { PosteriorsService } from './posteriors.service.js';
import { RecordLinks } from './record-links.js';
import { looksByGenotype } from './chances.js';
import type { StockEvidence } from './evidence.js';
import { ranking } from './ranking-program.js';

const MOST_SHOWN = 20;
/** Partners of whom different things are believed: each costs a walk through all broods there may be. */
const MOST_JUDGED = 500;
/** Steps of those walks, all partners together. */
const MOST_STEPS = 50_000_000;
const MOST_FRY = 100;

/** Told while the chances are still being worked out. */
const NOTHING_YET = {
  allele: '',
  carries: 0,
  uncertainty: 0,
  matings: [],
  assumed: [],
  partnerCount: 0,
  judgedCount: 0,
  notKnownCount: 0,
};

/** Partners that are not on record: any fish of which both alleles are known and alike. */
const knownOnBothSides = (locus: Locus, genotypes: ReturnType<typeof allGenotypes>) =>
  genotypes
    .filter(([a, b]) => a === b)
    .map((one) => {
      const written = formatGenotype(locus, one);
      const look = looksByGenotype(locus).get(written) ?? '';
      return { name: `any fish known to be ${written} (${look})`, genotype: one };
    });

const expectFry = (fry: number): void => {
  if (Number.isInteger(fry) && fry >= 1 && fry <= MOST_FRY) return;
  throw fieldError({
    field: 'fry',
    message: `"${fry}" young: give a whole number from 1 to ${MOST_FRY}.`,
  });
};

interface Partner {
  readonly id: string;
  readonly tag: string;
}

/** What is believed of every fish at a locus: chances of its genotypes, in their order. */
interface Known {
  readonly locus: Locus;
  readonly genotypes: ReturnType<typeof allGenotypes>;
  readonly all: Readonly<Record<string, readonly number[]>>;
}

interface Tried {
  readonly rows: readonly Partner[];
  /** Groups of which the same is known, the first standing for each. */
  readonly judged: readonly [Partner, ...Partner[]][];
  readonly ranked: readonly RankedTestMating[];
  readonly groups: ReadonlyMap<string, readonly Partner[]>;
}

@Injectable()
export class TestMatingsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly carriers: CarriersService,
    private readonly posteriors: PosteriorsService,
    private readonly links: RecordLinks,
    private readonly genotypes: GenotypesService,
    private readonly loci: LociService,
  ) {}

  async rank(
    input: TestMatingsInput,
    person: SignedInPerson,
    context: object,
  ): Promise<TestMatingsModel> {
    expectFry(input.fry);
    const stock = await this.carriers.stockWith(input.fishId);
    const evidence = this.carriers.locusIn(stock, input.locusId);
    const { locus } = evidence;
    const asked = { kind: 'all' } as const;
    const { answer, waiting } = await this.posteriors.ask(stock, evidence, asked, person.name);
    if (answer === null || answer.all === undefined) {
      if (answer?.impossible !== undefined)
        throw new HeredityError('EVIDENCE_IMPOSSIBLE', answer.impossible);
      return { ...NOTHING_YET, waiting: waiting === null ? null : toComputation(waiting) };
    }
    const known = { locus, genotypes: allGenotypes(locus), all: answer.all };
    const allele = readAllele(known, input.allele ?? null, input.fishId);
    const tried = await this.judge(stock, known, allele.id, input);
    const { rows, judged, ranked, groups } = tried;
    return {
      allele: allele.symbol,
      carries: carries(known.genotypes, known.all[input.fishId] ?? [], allele.id),
      uncertainty: ranked[0]?.uncertainty ?? 0,
      waiting: null,
      partnerCount: rows.length,
      judgedCount: judged.reduce((sum, group) => sum + group.length, 0),
      notKnownCount: ranked.reduce(
        (sum, one) => sum + (one.notKnown === null ? 0 : (groups.get(one.name)?.length ?? 0)),
        0,
      ),
      assumed: [...new Set(ranked.flatMap((one) => one.assumed))],
      matings: await this.shown(known, tried, context),
    };
  }

  /** The partners there are, those of whom different things are known judged each once, the most telling first. */
  private async judge(
    stock: StockEvidence,
    { locus, genotypes, all }: Known,
    allele: string,
    { fry, fishId, lineId }: TestMatingsInput,
  ): Promise<Tried> {
    const weighted = (id: string): WeightedGenotypeInput[] => normal(genotypes, all[id] ?? []);
    const rows = await partnersHere(this.dataSource, fishId, lineId ?? null);
    const atHiders = await this.atHiders(stock, locus, [fishId, ...rows.map((row) => row.id)]);
    const alike = alikeIn(rows, (id) => [all[id] ?? [], atHiders(id)]);
    const judged = alike.slice(0, mostJudged(locus, fry));
    const partners = [
      ...knownOnBothSides(locus, genotypes),
      ...judged.map(([{ id }]) => ({
        name: id,
        genotype: weighted(id),
        atHiders: atHiders(id),
      })),
    ];
    const ranked = await besideTheLoop(ranking, {
      locus,
      fish: weighted(fishId),
      allele,
      partners,
      fry,
      atHiders: atHiders(fishId),
      loci: (await this.loci.own()).filter((one) => one.status === 'current'),
    });
    return { rows, judged, ranked, groups: new Map(judged.map((group) => [group[0].id, group])) };
  }

  /** The first of the ranked, those judged as one apart again. */
  private shown(
    { locus, genotypes, all }: Known,
    { rows, ranked, groups }: Tried,
    context: object,
  ): Promise<TestMatingModel[]> {
    const tags = new Map(rows.map((row) => [row.id, row.tag]));
    const apart = ranked.flatMap((one) => {
      const group = groups.get(one.name);
      return group === undefined ? [one] : group.map(({ id }) => ({ ...one, name: id }));
    });
    return Promise.all(
      apart.slice(0, MOST_SHOWN).map(async ({ name, bits, uncertainty, ...one }) => {
        const tag = tags.get(name);
        return {
          partner: tag === undefined ? null : await this.links.fish(name, context),
          name:
            tag === undefined ? name : `${tag}, ${likeliest(locus, genotypes, all[name] ?? [])}`,
          bits,
          share: bits === null ? null : uncertainty > 0 ? bits / uncertainty : 0,
          showing: one.showing,
          fryNeeded: one.fryNeeded,
          notKnown: one.notKnown,
        };
      }),
    );
  }

  private async atHiders(
    stock: StockEvidence,
    locus: Locus,
    fishIds: string[],
  ): Promise<(fishId: string) => GenotypeSet> {
    const recorded =
      locus.hiddenBy.length === 0
        ? new Map<string, GenotypeSet>()
        : await this.genotypes.setsOf(fishIds);
    return setsAtHiders(locus, stock, recorded);
  }
}

const mostJudged = (locus: Locus, fry: number): number =>
  Math.max(10, Math.min(MOST_JUDGED, Math.floor(MOST_STEPS / testMatingSteps(locus, fry))));

/** Partners of whom the same is known, here and at loci that hide this one, tell the same: they are judged once, in the order of the first of each. */
const alikeIn = (
  partners: readonly Partner[],
  known: (id: string) => unknown,
): [Partner, ...Partner[]][] => {
  const groups = new Map<string, [Partner, ...Partner[]]>();
  for (const partner of partners) {
    const key = JSON.stringify(known(partner.id));
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [partner]);
    else group.push(partner);
  }
  return [...groups.values()];
};

const normal = (
  genotypes: readonly Genotype[],
  row: readonly number[],
): WeightedGenotypeInput[] => {
  const sum = row.reduce((a, b) => a + b, 0);
  return genotypes.map((genotype, i) => ({
    genotype,
    probability: sum > 0 ? (row[i] ?? 0) / sum : 1 / genotypes.length,
  }));
};

const carries = (genotypes: readonly Genotype[], row: readonly number[], allele: string): number =>
  genotypes.reduce((sum, one, i) => sum + (one.includes(allele) ? (row[i] ?? 0) : 0), 0);

/** The allele that was asked for, or else the one of which it is least sure whether the fish carries it. */
const readAllele = ({ locus, genotypes, all }: Known, asked: string | null, fishId: string) => {
  const row = all[fishId] ?? [];
  const found =
    asked === null
      ? locus.alleles.toSorted(
          (a, b) =>
            Math.abs(carries(genotypes, row, a.id) - 0.5) -
            Math.abs(carries(genotypes, row, b.id) - 0.5),
        )[0]
      : locus.alleles.find((one) => one.id === asked || one.symbol === asked);
  if (found !== undefined) return found;
  throw new HeredityError(
    'ALLELE_UNKNOWN',
    `"${asked ?? ''}" is not an allele of ${locus.name}: give one of ${locus.alleles.map((one) => one.symbol).join(', ')}.`,
  );
};

const likeliest = (
  locus: Locus,
  genotypes: readonly Genotype[],
  row: readonly number[],
): string => {
  let best = 0;
  row.forEach((p, i) => {
    if (p > (row[best] ?? 0)) best = i;
  });
  const genotype = genotypes[best];
  if (genotype === undefined) return 'not known';
  return `${formatGenotype(locus, genotype)} (${((row[best] ?? 0) * 100).toFixed(0)} %)`;
};
