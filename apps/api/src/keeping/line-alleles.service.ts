import { catalogue, type Locus } from '@linewright/heredity';
import {
  type AlleleInLine,
  chanceOfCarrying,
  type LinePurpose,
  type PairingCandidate,
  wantedAlleles,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { EvidenceService } from '../carriers/evidence.service.js';
import { PosteriorsService } from '../carriers/posteriors.service.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';

/** A wanted allele with the names that people call it by. */
export interface NamedAllele extends AlleleInLine {
  readonly locus: Locus;
  readonly symbol: string;
  readonly name: string;
}

export interface LineAlleles {
  readonly alleles: readonly NamedAllele[];
  /** Wanted alleles of which nothing could be worked out, in sentences. */
  readonly notKnown: readonly string[];
  readonly waiting: ComputationRow | null;
}

/** Chances that the living fish of a line carry what it is for, each fish and all together. */
@Injectable()
export class LineAllelesService {
  constructor(
    private readonly evidence: EvidenceService,
    private readonly posteriors: PosteriorsService,
  ) {}

  /** @param living fish of the line, with their chances of genotypes. */
  async of(
    { looks }: LinePurpose,
    living: readonly PairingCandidate[],
    own: readonly Locus[],
    by: string,
  ): Promise<LineAlleles> {
    const alleles: NamedAllele[] = [];
    const notKnown: string[] = [];
    let waiting: ComputationRow | null = null;
    const loci = [...catalogue, ...own];
    const wanted = wantedAlleles(loci, looks);
    if (wanted.length === 0) return { alleles, notKnown, waiting };
    const stock = await this.evidence.stock();
    for (const { locusId, alleleId } of wanted) {
      const locus = loci.find(({ id }) => id === locusId)!;
      const { symbol, name } = locus.alleles.find(({ id }) => id === alleleId)!;
      const evidence = stock.byLocus.get(locusId);
      if (evidence === undefined) {
        notKnown.push(
          `Of ${locus.name} nothing is recorded yet: who carries ${name} is not known.`,
        );
        continue;
      }
      const among = living.map(({ id }) => id);
      const question = { kind: 'sole', allele: alleleId, among } as const;
      const asked = await this.posteriors.ask(stock, evidence, question, by);
      waiting ??= asked.waiting;
      if (asked.answer?.impossible !== undefined) {
        notKnown.push(
          `The records of ${locus.name} contradict each other: who carries ${name} is not known.`,
        );
        continue;
      }
      const sole = asked.answer?.sole ?? null;
      alleles.push({
        ...{ locusId, alleleId, locus, symbol, name },
        carrying: carryingAmong(living, locus, alleleId),
        sole: sole === null ? null : new Map(among.map((id, k) => [id, sole[k]!])),
      });
    }
    return { alleles, notKnown, waiting };
  }
}

const carryingAmong = (
  living: readonly PairingCandidate[],
  locus: Locus,
  alleleId: string,
): Map<string, number> =>
  new Map(
    living.flatMap((fish) => {
      const chance = chanceOfCarrying(fish, locus, alleleId);
      return chance === null ? [] : [[fish.id, chance]];
    }),
  );
