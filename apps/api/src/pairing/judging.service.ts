import { catalogue, findLocus, type Locus } from '@linewright/heredity';
import {
  type ClassWish,
  type PairingCandidate,
  type PairingInput as JudgedInput,
  type PastPairing,
  type RankedPairing,
  judgePairings,
  type PairIds,
  passingOfPair,
  worthDifference,
  type WorthDifference,
  type PassingOfPair,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { currentActor } from '../access/acting.js';
import { seesByGrant } from '../access/actor.js';
import { Clock } from '../clock/clock.js';
import { RequestError } from '../errors/request-error.js';
import { LastUsed, workedOutOnce } from '../jobs/last-used.js';
import { GenotypesService } from '../loci/genotypes.service.js';
import { LociService } from '../loci/loci.service.js';
import { hiddenParentId, hiddenParentTag } from '../kinship/hidden-parents.js';
import { type PedigreeState, PedigreeService } from '../kinship/pedigree.service.js';
import { scoresOfFish } from '../stock/score.loader.js';
import { traitsByName } from '../stock/score-rows.js';
import type { TraitDefinitionRow } from '../stock/rows/score.entity.js';
import { recordedParents, spawnsAmong, spawnsOfUnknownParents } from '../stock/pedigree-rows.js';
import { type CandidateRow, candidateRows, toCandidate } from '../stock/candidate-rows.js';
import { judgingState } from '../stock/judging-state.js';
import type { PairingInput } from './pairing.inputs.js';
import { standingScores } from './standing-scores.js';
import { settingsOfLines } from './settings-of-lines.js';
import { ErrorsTogetherService } from './errors-together.service.js';
import { type LineBasis, WorthBasisService } from './worth-basis.service.js';

/** Judged stocks kept in memory, the last asked for. */
const MOST_HELD = 12;

export interface Judged {
  readonly state: PedigreeState;
  readonly input: JudgedInput;
  readonly traits: Map<string, TraitDefinitionRow>;
  readonly basis: LineBasis;
}

/**
 * Loads what the mating lib judges: fish in use, their genotypes and scores, past pairings, and the pedigree. What was loaded is kept as long
 * as no record of it changed, in any process, and for those who see all of it.
 */
@Injectable()
export class JudgingService {
  private readonly held = new LastUsed<Promise<Judged>>(MOST_HELD);

  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
    private readonly genotypes: GenotypesService,
    private readonly loci: LociService,
    private readonly bases: WorthBasisService,
    private readonly errors: ErrorsTogetherService,
    private readonly clock: Clock,
  ) {}

  /** All that the pairs of a choice are judged by, the named fish among it. */
  async stock(
    input: Partial<PairingInput>,
    by: string,
    named: readonly string[] = [],
    asOf = this.clock.today(),
  ): Promise<Judged> {
    const ids = [...named, ...(input.sireIds ?? []), ...(input.damIds ?? [])];
    const { lineIds = null, wantClasses = null, includePartners } = input;
    const partners = includePartners === true;
    const load = async (): Promise<Judged> => {
      const rows = await candidateRows(this.dataSource.manager, ids, { lineIds, partners });
      return this.judge(
        rows,
        { wantClasses },
        lineIds?.length === 1 ? lineIds[0]! : null,
        asOf,
        by,
      );
    };
    const actor = currentActor();
    if (actor.kind === 'account' && seesByGrant(actor.role)) return load();
    const state = await judgingState(this.dataSource);
    const key = JSON.stringify([state, asOf, ids, lineIds, wantClasses, partners]);
    const judged = await workedOutOnce(this.held, key, load);
    // What is waited for comes without a change of any record.
    if (judged.basis.waiting !== null) this.held.drop(key);
    return judged;
  }

  /** One pair, judged as the list of that choice judges it. */
  async explain(
    sireId: string,
    damId: string,
    input: Partial<PairingInput> | null,
    by: string,
  ): Promise<{ judged: Judged; row: RankedPairing; passing: PassingOfPair }> {
    const choice = input ?? (await this.lineOfBoth(sireId, damId));
    const judged = await this.stockWith([sireId, damId], choice, by);
    const [row] = judgePairings(judged.input, [{ sireId, damId }]);
    if (row === undefined) throw new Error('A pair was asked for and none came back.');
    return { judged, row, passing: passingOfPair(judged.input, { sireId, damId }) };
  }

  /** Two pairs, both among the candidates of one choice. */
  async difference(
    a: PairIds,
    b: PairIds,
    input: Partial<PairingInput> | null,
    by: string,
  ): Promise<WorthDifference> {
    const choice = input ?? (await this.lineOfBoth(a.sireId, a.damId));
    const judged = await this.stockWith([a.sireId, a.damId, b.sireId, b.damId], choice, by);
    return worthDifference(judged.input, a, b);
  }

  /** The stock of a choice with these fish in it: most are among it as it is, and then it is the one that the list was made from. */
  private async stockWith(
    fishIds: readonly string[],
    choice: Partial<PairingInput>,
    by: string,
  ): Promise<Judged> {
    const judged = await this.stock(choice, by);
    const known = new Set(judged.input.candidates.map(({ id }) => id));
    return fishIds.every((id) => known.has(id)) ? judged : this.stock(choice, by, fishIds);
  }

  /** Without a choice a pair is judged by the line that both are of, if they are of one. */
  private async lineOfBoth(sireId: string, damId: string): Promise<Partial<PairingInput>> {
    const rows = await candidateRows(this.dataSource.manager, [sireId, damId], null);
    const lines = new Set(rows.map(({ lineId }) => lineId));
    const [lineId] = lines;
    return lines.size === 1 && lineId != null ? { lineIds: [lineId] } : {};
  }

  private async judge(
    rows: CandidateRow[],
    input: Pick<PairingInput, 'wantClasses'>,
    lineId: string | null,
    asOf: string,
    by: string,
  ): Promise<Judged> {
    const ids = idsOf(rows);
    const [state, sets, scores, traits, past, own] = await Promise.all([
      this.pedigrees.state(),
      this.genotypes.setsOf(ids),
      scoresOfFish(this.dataSource, ids),
      traitsByName(this.dataSource.manager, false),
      this.past(ids),
      this.loci.own(),
    ]);
    const loci = own.filter((one) => one.status === 'current');
    const wanted = (input.wantClasses ?? []).map((text) => toWish(text, [...catalogue, ...own]));
    const looks = wanted.flatMap(({ show }) => Object.keys(show));
    const known = await this.bases.of(lineId, looks, loci, by);
    const sexed = rows.filter(({ sex }) => sex === 'male' || sex === 'female');
    const { worth } = known;
    const aimed = await this.errors.in(worth.traits, lineId, idsOf(sexed), by);
    const basis: LineBasis = { ...known, worth: { ...worth, traits: aimed } };
    const scored = standingScores(scores);
    const candidates = rows.map((row): PairingCandidate => ({
      ...toCandidate(row),
      genotypes: sets.get(row.id) ?? {},
      carries: basis.carriedBy(row.id),
      values: basis.valuesOf(row.id),
      scores: scored.get(row.id) ?? [],
    }));
    return {
      state,
      basis,
      traits: new Map(traits.map((t) => [t.id, t])),
      input: {
        pedigree: state.pedigree,
        inbreeding: state.inbreeding,
        unrelatedOrigin: state.pedigree.ids.filter((_, i) => state.declared[i] === 1),
        candidates,
        asOf,
        pastPairings: past,
        names: await this.names(),
        traits: traits.map((t) => ({
          traitId: t.id,
          name: t.name,
          ...(t.unit !== null && { unit: t.unit }),
          ...(t.kind === 'yes_no' && { yesNo: true }),
          higherIsBetter: t.higherIsBetter ?? true,
        })),
        loci,
        wanted,
        worth: basis.worth,
        settingsOfLines: await settingsOfLines(this.dataSource.manager, rows),
      },
    };
  }

  private async past(ids: string[]): Promise<PastPairing[]> {
    const rows = await spawnsAmong(this.dataSource, ids);
    return rows.map((row) => ({
      sireId: row.sireId,
      damId: row.damId,
      outcome: row.failed ? 'failed' : 'spawned',
      ...(row.on !== null && { on: row.on }),
      ...(row.reason !== null && { reason: row.reason }),
    }));
  }

  private async names(): Promise<Map<string, string>> {
    const rows = await recordedParents(this.dataSource);
    const names = new Map(rows.map((row) => [row.id, row.tag]));
    for (const { id, tag } of await spawnsOfUnknownParents(this.dataSource)) {
      for (const role of ['sire', 'dam'] as const) {
        names.set(hiddenParentId(id, role), hiddenParentTag(role, tag));
      }
    }
    return names;
  }
}

const idsOf = (rows: readonly CandidateRow[]): string[] => rows.map(({ id }) => id);

const toWish = (text: string, loci: readonly Locus[]): ClassWish => {
  const [locusId, phenotypeId] = text.split(':');
  if (locusId === undefined || phenotypeId === undefined) {
    throw new RequestError(
      'VALIDATION',
      `"${text}" is not a wanted appearance: give locus:phenotype, such as bl:royal.`,
    );
  }
  const locus = findLocus(locusId, loci);
  if (!locus.phenotypes.some((p) => p.id === phenotypeId)) {
    throw new RequestError(
      'VALIDATION',
      `${locus.name} has no appearance "${phenotypeId}": give one of ${locus.phenotypes.map((p) => p.id).join(', ')}.`,
    );
  }
  return { show: { [locusId]: phenotypeId } };
};
