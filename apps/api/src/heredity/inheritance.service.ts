import type { Locus } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import type { Linkage, LinkageBrood, WeighedInheritance } from '@linewright/merit';
import { subset, withAncestors } from '@linewright/pedigree';
import { DataSource } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import { pedigreeOfRows } from '../kinship/hidden-parents.js';
import { LociService } from '../loci/loci.service.js';
import { readPhenotype, tooYoung } from '../loci/phenotype-reading.js';
import { readEvidenceRows, type SeenRow } from '../stock/evidence-rows.js';
import { linkageProgram, weighProgram } from './inheritance-programs.js';
import {
  type HowInheritedModel,
  InheritanceVerdict,
  type LinkageAnswerModel,
  type LinkageBroodInput,
  LinkageVerdict,
  LinkedParent,
  LinkedPhase,
  type RecombinationModel,
} from './inheritance.model.js';

const MOST_BROODS = 500;
const MOST_YOUNG = 100_000;
/** Morton's line for linkage. */
const LINKED = 3;
/** A share of recombinants below which a breeder would notice: our own choosing. */
const CLOSE = 0.3;
/** Ways of inheritance that the engine weighs. */
const ALL_WAYS = 8;

/** How looks are inherited: two of them together or not, and one of them by how many loci. */
@Injectable()
export class InheritanceService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly loci: LociService,
  ) {}

  /** @throws RequestError `VALIDATION`; MeritError of broods that tell nothing */
  async linkage(inputs: readonly LinkageBroodInput[]): Promise<LinkageAnswerModel> {
    expectBroods(inputs);
    const found = await besideTheLoop(linkageProgram, inputs.map(toBrood));
    const { all, bySex, notCloserThan } = found;
    return {
      ...toRecombination(all),
      verdict:
        all.lod >= LINKED
          ? LinkageVerdict.TOGETHER
          : notCloserThan >= CLOSE
            ? LinkageVerdict.APART
            : LinkageVerdict.CANNOT_TELL,
      notCloserThan,
      young: inputs.reduce((sum, brood) => sum + youngOf(brood), 0),
      inSires: bySex.sire === null ? null : toRecombination(bySex.sire),
      inDams: bySex.dam === null ? null : toRecombination(bySex.dam),
    };
  }

  /**
   * Weighs ways of inheritance of one look at a locus by all looks on record.
   *
   * @throws HeredityError of a locus or a look that is not known; MeritError `MERIT_TOO_FEW` when all show it or none does; RequestError
   * `WORK_TOO_LONG`
   */
  async howInherited(locusId: string, phenotype: string): Promise<HowInheritedModel> {
    const locus = await this.loci.find(locusId);
    const look = readPhenotype(locus, phenotype);
    const rows = await this.dataSource.transaction('REPEATABLE READ', readEvidenceRows);
    const pedigree = pedigreeOfRows(rows.fish);
    const shows = showsOf(locus, look.id, rows.seen);
    const fish = [...shows].flatMap(([id, shown]) =>
      shown === null ? [] : [pedigree.indexOf(id)],
    );
    const kin = subset(pedigree, withAncestors(pedigree, fish));
    const seen = Int8Array.from(kin.ids, (id) => {
      const shown = shows.get(id) ?? null;
      return shown === null ? -1 : Number(shown);
    });
    const found = await besideTheLoop(weighProgram, kin.sire, kin.dam, seen);
    return {
      locusId: locus.id,
      phenotype: look.name,
      looked: fish.length,
      shown: seen.filter((one) => one === 1).length,
      contradicting: shows.size - fish.length,
      leftOut: ALL_WAYS - found.hypotheses.length,
      verdict: VERDICTS[found.verdict ?? 'cannot tell'],
      ways: found.hypotheses.map(({ code, meaning, weight, estimate }) => ({
        code,
        meaning,
        weight,
        estimate,
      })),
    };
  }
}

const VERDICTS: Record<
  NonNullable<WeighedInheritance['verdict']> | 'cannot tell',
  InheritanceVerdict
> = {
  'not inherited': InheritanceVerdict.NOT_INHERITED,
  'one locus': InheritanceVerdict.ONE_LOCUS,
  'two loci': InheritanceVerdict.TWO_LOCI,
  'many loci': InheritanceVerdict.MANY_LOCI,
  'cannot tell': InheritanceVerdict.CANNOT_TELL,
};

/** Whether each fish looked at shows it; null where its looks contradict each other. Looks that were too early tell nothing. */
const showsOf = (
  locus: Locus,
  phenotype: string,
  seen: readonly SeenRow[],
): Map<string, boolean | null> => {
  const shows = new Map<string, boolean | null>();
  for (const row of seen) {
    if (row.locusId !== locus.id || tooYoung(locus, row.ageDays) !== null) continue;
    const now = row.phenotype === phenotype;
    const before = shows.get(row.fishId);
    shows.set(row.fishId, before === undefined || before === now ? now : null);
  }
  return shows;
};

const youngOf = ({ both, firstOnly, secondOnly, neither }: LinkageBroodInput): number =>
  both + firstOnly + secondOnly + neither;

const toBrood = (input: LinkageBroodInput): LinkageBrood => {
  const { carrier, phase, both, firstOnly, secondOnly, neither } = input;
  if (carrier === LinkedParent.BOTH) {
    const phases = {
      [LinkedPhase.TOGETHER]: 'coupling',
      [LinkedPhase.APART]: 'repulsion',
      [LinkedPhase.UNKNOWN]: 'unknown',
    } as const;
    return {
      kind: 'intercross',
      counts: [neither, secondOnly, firstOnly, both],
      phase: phases[phase],
    };
  }
  return {
    kind: 'testcross',
    parent: carrier === LinkedParent.SIRE ? 'sire' : 'dam',
    // What came apart parts, or comes together, by recombination; with unknown phase either pair of classes will do.
    recombinant: phase === LinkedPhase.APART ? both + neither : firstOnly + secondOnly,
    total: youngOf(input),
    phase: phase === LinkedPhase.UNKNOWN ? 'unknown' : 'known',
  };
};

const toRecombination = ({
  recombination,
  standardError,
  lod,
  support,
}: Linkage): RecombinationModel => ({
  recombination,
  standardError,
  lod,
  low: support.low,
  high: support.high,
});

const expectBroods = (inputs: readonly LinkageBroodInput[]): void => {
  if (inputs.length > MOST_BROODS)
    throw fieldError({
      field: 'broods',
      message: `${inputs.length} broods are too many: give at most ${MOST_BROODS}.`,
    });
  inputs.forEach((brood, k) => {
    const counts = [brood.both, brood.firstOnly, brood.secondOnly, brood.neither];
    const wrong = counts.find((count) => count < 0 || count > MOST_YOUNG);
    if (wrong === undefined) return;
    throw fieldError({
      field: `broods.${k}`,
      message: `Brood ${k + 1} cannot have ${wrong} young of one kind: give 0 to ${MOST_YOUNG}.`,
    });
  });
};
