import { createHash } from 'node:crypto';
import { lociBehind } from '@linewright/heredity';
import { coancestryBlock } from '@linewright/kinship';
import {
  type BelievedLocus,
  type BelievedTrait,
  type LineBelief,
  type LinePurpose,
  outcomesOf,
  wantedAlleles,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import type { Ask } from '../carriers/carrier-task.js';
import type { StockEvidence } from '../carriers/evidence.js';
import { EvidenceService } from '../carriers/evidence.service.js';
import { PosteriorsService } from '../carriers/posteriors.service.js';
import type { CarrierAnswer } from '../carriers/task.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { TraitBeliefsService } from '../merit/trait-beliefs.service.js';
import { type CandidateRow, candidateRows } from '../stock/candidate-rows.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { MOST_SIMULATIONS } from './route-task.js';

/** Fish of the line that are looked at, and of other lines; the youngest, who can be parents longest. */
const MOST_OF_LINE = 60;
const MOST_OTHERS = 20;

/** Which fish stand beside those of the line: none, those of all other lines, or one that is named, whatever became of it. */
export type FishBeside = 'none' | 'other-lines' | { readonly partnerId: string };

/** What is known of the fish that a simulation starts from, and what of the purpose can be looked at with it. */
export interface BelievedLine {
  readonly belief: LineBelief;
  /** 1 for fish of the line. */
  readonly ofLine: Uint8Array;
  readonly traits: LinePurpose['traits'];
  readonly looks: LinePurpose['looks'];
  /** What was left out or assumed, in sentences. */
  readonly leftOut: readonly string[];
  /** Figures that have to be worked out first. */
  readonly waiting: ComputationRow | null;
  /** What is taken until its values are worked out, in sentences, and the first of those that are. */
  readonly forNow: { readonly said: readonly string[]; readonly until: ComputationRow } | null;
  /** Changes with everything that is believed. */
  readonly key: string;
}

export interface BeliefAsked {
  readonly beside: FishBeside;
  readonly by: string;
  /** Whether genotypes are drawn for all fish together, as a simulation needs them; else they are told fish by fish, exactly. */
  readonly together: boolean;
  /** Whether traits whose values are still worked out are taken at what their scores say with the shares known so far. */
  readonly forNow?: boolean;
}

/** An allele that is wanted, and the chance of each fish asked for to carry it, in their order. */
export interface CarriedAllele {
  readonly allele: string;
  readonly chances: readonly number[];
}

/** Reads what is believed of a line's fish: breeding values with their errors, chances of genotypes, coancestries. */
@Injectable()
export class LineBeliefsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
    private readonly beliefs: TraitBeliefsService,
    private readonly evidence: EvidenceService,
    private readonly posteriors: PosteriorsService,
  ) {}

  async of(
    lineId: string,
    { traits, looks }: Pick<LinePurpose, 'traits' | 'looks'>,
    { beside, by, together, forNow = false }: BeliefAsked,
  ): Promise<BelievedLine> {
    const leftOut: string[] = [];
    const rows = await this.fish(lineId, beside, leftOut);
    const ids = rows.map(({ id }) => id);
    const { pedigree } = await this.pedigrees.state();
    const at = Int32Array.from(ids, (id) => pedigree.indexOf(id));
    const [valued, seen] = await Promise.all([
      this.traits(traits, { lineId, ids, by, forNow }),
      this.loci(looks, { ids, by, together }),
    ]);
    leftOut.push(...valued.leftOut, ...seen.leftOut);
    const belief: LineBelief = {
      fish: ids,
      sex: rows.map(({ sex }) => (sex === 'male' ? 'male' : 'female')),
      coancestry: coancestryBlock(pedigree, at, at),
      traits: valued.believed,
      loci: seen.believed,
    };
    const known = new Set(valued.believed.map(({ traitId }) => traitId));
    return {
      belief,
      ofLine: Uint8Array.from(rows, (row) => Number(row.lineId === lineId)),
      traits: traits.filter(({ traitId }) => known.has(traitId)),
      looks: seen.looks,
      leftOut,
      waiting: valued.waiting ?? seen.waiting,
      forNow: valued.forNow,
      key: keyOf(belief, rows),
    };
  }

  /** For each allele without which a wanted look cannot come, the chance of each of these fish to carry it. */
  async carriers(
    looks: LinePurpose['looks'],
    ids: readonly string[],
    by: string,
  ): Promise<{ carried: CarriedAllele[]; waiting: ComputationRow | null }> {
    const { believed, waiting } = await this.loci(looks, { ids, by, together: false });
    const alleles = wantedAlleles(
      believed.map(({ locus }) => locus),
      looks,
    );
    const carried = alleles.map(({ locusId, alleleId }): CarriedAllele => {
      const { locus, groups } = believed.find((one) => one.locus.id === locusId)!;
      const symbol = locus.alleles.find(({ id }) => id === alleleId)?.symbol ?? alleleId;
      const chances = groups.map((group) =>
        outcomesOf(group).reduce(
          (sum, { genotypes, probability }) =>
            genotypes[0]!.includes(alleleId) ? sum + probability : sum,
          0,
        ),
      );
      return { allele: `${symbol} (${locus.name})`, chances };
    });
    return { carried, waiting };
  }

  private async fish(
    lineId: string,
    beside: FishBeside,
    leftOut: string[],
  ): Promise<CandidateRow[]> {
    const found = await candidateRows(
      this.dataSource.manager,
      typeof beside === 'object' ? [beside.partnerId] : [],
      { lineIds: beside === 'other-lines' ? null : [lineId], partners: false },
    );
    const unsexed = found.filter(({ sex, lineId: of }) => of === lineId && !isSexed(sex)).length;
    if (unsexed > 0)
      leftOut.push(`${unsexed} fish of the line without a recorded sex can be in no pair.`);
    const sexed = found.filter(({ sex }) => isSexed(sex)).toSorted(youngestFirst);
    const own = sexed.filter(({ lineId: of }) => of === lineId);
    const others = sexed.filter(({ lineId: of }) => of !== lineId);
    if (own.length > MOST_OF_LINE)
      leftOut.push(
        `Of ${own.length} fish of the line in use the ${MOST_OF_LINE} youngest were looked at.`,
      );
    if (others.length > MOST_OTHERS)
      leftOut.push(
        `Of ${others.length} fish of other lines the ${MOST_OTHERS} youngest were looked at.`,
      );
    return [...own.slice(0, MOST_OF_LINE), ...others.slice(0, MOST_OTHERS)];
  }

  private async traits(
    aims: LinePurpose['traits'],
    { lineId, ids, by, forNow }: TraitsAsked,
  ): Promise<{ believed: BelievedTrait[] } & Pick<BelievedLine, 'waiting' | 'forNow' | 'leftOut'>> {
    const leftOut: string[] = [];
    const believed: BelievedTrait[] = [];
    let waiting: ComputationRow | null = null;
    let until: ComputationRow | null = null;
    const early: ForNow[] = [];
    const answers = await this.beliefs.ofAll(
      aims.map(({ traitId }) => traitId),
      { lineId, fishIds: ids, by, forNow },
    );
    for (const [k, answer] of answers.entries()) {
      if (answer.belief !== null) {
        believed.push({ traitId: aims[k]!.traitId, ...answer.belief });
        if (answer.until === null) continue;
        until ??= answer.until;
        early.push({ name: answer.name, inherited: inheritedIn(answer.belief) });
        continue;
      }
      waiting ??= answer.waiting;
      leftOut.push(`${answer.name} is not counted: ${answer.why}`);
    }
    return {
      believed,
      waiting,
      leftOut,
      forNow: until === null ? null : { said: forNowTexts(early), until },
    };
  }

  private async loci(
    looks: LinePurpose['looks'],
    asked: LociAsked,
  ): Promise<{ believed: BelievedLocus[] } & Pick<BelievedLine, 'looks' | 'waiting' | 'leftOut'>> {
    const leftOut: string[] = [];
    if (looks.length === 0) return { believed: [], looks, waiting: null, leftOut };
    const stock = await this.evidence.stock();
    const own = [...stock.byLocus.values()].map(({ locus }) => locus);
    const behind = lociBehind(
      [...new Set(looks.flatMap(({ look }) => Object.keys(look.show)))],
      own,
    );
    const believed: BelievedLocus[] = [];
    let waiting: ComputationRow | null = null;
    for (const answered of await Promise.all(behind.map((id) => this.locus(stock, id, asked)))) {
      if (answered === null) continue;
      if ('waiting' in answered) waiting ??= answered.waiting;
      else believed.push(answered);
    }
    const known = new Set(believed.map(({ locus }) => locus.id));
    const kept = looks.filter(({ look }) => Object.keys(look.show).every((id) => known.has(id)));
    for (const { look } of looks.filter((one) => !kept.includes(one)))
      leftOut.push(
        `${look.label ?? Object.values(look.show).join(', ')} is not counted: of ${Object.keys(
          look.show,
        )
          .filter((id) => !known.has(id))
          .join(', ')} nothing is recorded yet, or the records contradict each other.`,
      );
    return { believed, looks: kept, waiting, leftOut };
  }

  private async locus(
    stock: StockEvidence,
    id: string,
    { ids, by, together }: LociAsked,
  ): Promise<BelievedLocus | { waiting: ComputationRow } | null> {
    const evidence = stock.byLocus.get(id);
    if (evidence === undefined) return null;
    const question: Ask = together
      ? { kind: 'together', fish: ids, count: MOST_SIMULATIONS }
      : { kind: 'fish', fish: ids };
    const { answer, waiting } = await this.posteriors.ask(stock, evidence, question, by);
    if (waiting !== null) return { waiting };
    const groups = together ? drawnOf(answer, ids) : singlesOf(answer, ids);
    return groups === null ? null : { locus: evidence.locus, groups };
  }
}

/** All fish in one group; `null` where the records contradict each other. */
const drawnOf = (
  { together }: CarrierAnswer,
  ids: readonly string[],
): BelievedLocus['groups'] | null =>
  together === undefined
    ? null
    : [
        {
          fish: [...ids.keys()],
          genotypes: together.genotypes,
          draws: Uint8Array.from(Buffer.from(together.draws, 'base64')),
        },
      ];

const singlesOf = (
  { fish }: CarrierAnswer,
  ids: readonly string[],
): BelievedLocus['groups'] | null =>
  fish === undefined
    ? null
    : ids.map((one, k) => {
        const chances = (fish[one] ?? []).filter(({ probability }) => probability > 0);
        const sum = chances.reduce((total, { probability }) => total + probability, 0);
        return {
          fish: [k],
          outcomes: chances.map(({ genotype, probability }) => ({
            genotypes: [genotype],
            probability: probability / sum,
          })),
        };
      });

interface LociAsked {
  readonly ids: readonly string[];
  readonly by: string;
  readonly together: boolean;
}

interface TraitsAsked {
  readonly lineId: string;
  readonly ids: readonly string[];
  readonly by: string;
  readonly forNow: boolean;
}

/** A trait whose values are still worked out, and the percentage of its spread that is taken for inherited until then. */
interface ForNow {
  readonly name: string;
  readonly inherited: number;
}

const inheritedIn = ({
  additive,
  commonBrood,
  residual,
}: Pick<BelievedTrait, 'additive' | 'commonBrood' | 'residual'>): number =>
  Math.round((100 * additive) / (additive + commonBrood + residual));

/** One sentence for all traits of which the same is taken. */
const forNowTexts = (early: readonly ForNow[]): string[] =>
  [...new Set(early.map(({ inherited }) => inherited))].map((percentage) => {
    const names = early.filter(({ inherited }) => inherited === percentage).map(({ name }) => name);
    const last = names.pop()!;
    const both = names.length === 0 ? last : `${names.join(', ')} and ${last}`;
    const [passes, its] = names.length === 0 ? ['passes', 'its'] : ['pass', 'their'];
    return `What ${both} ${passes} on is still being worked out. For now it is taken that ${percentage} % of ${its} spread is inherited.`;
  });

const isSexed = (sex: string): boolean => sex === 'male' || sex === 'female';

const youngestFirst = (a: CandidateRow, b: CandidateRow): number =>
  (b.hatchedOn ?? '').localeCompare(a.hatchedOn ?? '') || a.id.localeCompare(b.id);

const keyOf = (
  { fish, sex, coancestry, traits, loci }: LineBelief,
  rows: CandidateRow[],
): string => {
  const hash = createHash('sha256').update(coancestry);
  hash.update(JSON.stringify([fish, sex, rows.map(({ lineId }) => lineId)]));
  for (const { locus, groups } of loci) {
    hash.update(JSON.stringify(locus));
    for (const group of groups)
      hash.update('draws' in group ? group.draws : JSON.stringify(group.outcomes));
  }
  for (const { value, error, ...figures } of traits)
    hash.update(value).update(error).update(JSON.stringify(figures));
  return hash.digest('hex').slice(0, 32);
};
