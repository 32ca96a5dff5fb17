import { catalogue, findLocus, type Locus } from '@linewright/heredity';
import {
  type ClassWish,
  type OutcrossSuggestion,
  type PairingCandidate,
  type PairingInput as JudgedInput,
  type PastPairing,
  type RankedPairing,
  judgePairings,
  suggestOutcrosses,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { RequestError, fieldError } from '../errors/request-error.js';
import { GenotypesService } from '../loci/genotypes.service.js';
import { LociService } from '../loci/loci.service.js';
import { hiddenParentId, hiddenParentTag } from '../kinship/hidden-parents.js';
import { type PedigreeState, PedigreeService } from '../kinship/pedigree.service.js';
import { isStanding, scoresOfFish } from '../stock/score.loader.js';
import { traitsByName } from '../stock/score-rows.js';
import type { TraitDefinitionRow } from '../stock/rows/score.entity.js';
import { recordedParents, spawnsAmong, spawnsOfUnknownParents } from '../stock/pedigree-rows.js';
import { type CandidateRow, candidateRows, toCandidate } from '../stock/candidate-rows.js';
import type { OutcrossInput, PairingInput } from './pairing.inputs.js';

const MOST_OUTCROSSES = 100;

const expectFirst = (first: number): number => {
  if (first >= 1 && first <= MOST_OUTCROSSES) return first;
  throw fieldError({
    field: 'first',
    message: `${first} partners to suggest: give a whole number from 1 to ${MOST_OUTCROSSES}.`,
  });
};

export interface Judged {
  readonly state: PedigreeState;
  readonly input: JudgedInput;
  readonly traits: Map<string, TraitDefinitionRow>;
}

/** Loads what the mating lib judges: fish in use, their genotypes and scores, past pairings, and the pedigree. */
@Injectable()
export class JudgingService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
    private readonly genotypes: GenotypesService,
    private readonly loci: LociService,
    private readonly clock: Clock,
  ) {}

  /** All that the pairs of a choice are judged by, the named fish among it. */
  async stock(
    input: Partial<PairingInput>,
    named: readonly string[] = [],
    asOf = this.clock.today(),
  ): Promise<Judged> {
    const ids = [...named, ...(input.sireIds ?? []), ...(input.damIds ?? [])];
    const partners = input.includePartners === true;
    const { manager } = this.dataSource;
    const rows = await candidateRows(manager, ids, { lineIds: input.lineIds ?? null, partners });
    return this.judge(rows, input, asOf);
  }

  /** One pair, judged as the list of that choice judges it. */
  async explain(
    sireId: string,
    damId: string,
    input: Partial<PairingInput>,
  ): Promise<{ judged: Judged; row: RankedPairing }> {
    const judged = await this.stock(input, [sireId, damId]);
    const [row] = judgePairings(judged.input, [{ sireId, damId }]);
    if (row === undefined) throw new Error('A pair was asked for and none came back.');
    return { judged, row };
  }

  async outcrosses(input: OutcrossInput): Promise<readonly OutcrossSuggestion[]> {
    const limit = expectFirst(input.first);
    const rows = await candidateRows(this.dataSource.manager, [], {
      lineIds: null,
      partners: input.includePartners === true,
    });
    const inLine = new Set(rows.filter((row) => row.lineId === input.lineId).map((row) => row.id));
    if (inLine.size === 0) {
      throw fieldError({
        field: 'lineId',
        message:
          'This line has no fish in use here: mark its keepers first, or offer those with partners too.',
      });
    }
    const { input: judged } = await this.judge(rows, {}, this.clock.today());
    return suggestOutcrosses({
      pedigree: judged.pedigree,
      unrelatedOrigin: judged.unrelatedOrigin ?? [],
      ...(judged.loci !== undefined && { loci: judged.loci }),
      line: judged.candidates.filter((c) => inLine.has(c.id)),
      candidates: judged.candidates.filter((c) => !inLine.has(c.id)),
      asOf: judged.asOf,
      limit,
      wanted: [
        ...(input.wantAlleles ?? []).map((w) => ({
          kind: 'allele' as const,
          locusId: w.locusId,
          alleleId: w.alleleId,
        })),
        ...(input.minimumTraits ?? []).map((w) => ({
          kind: 'trait' as const,
          traitId: w.traitId,
          atLeast: w.minimum,
        })),
      ],
    });
  }

  private async judge(
    rows: CandidateRow[],
    input: Partial<PairingInput>,
    asOf: string,
  ): Promise<Judged> {
    const ids = rows.map((row) => row.id);
    const [state, sets, scores, traits, past, own] = await Promise.all([
      this.pedigrees.state(),
      this.genotypes.setsOf(ids),
      scoresOfFish(this.dataSource, ids),
      traitsByName(this.dataSource.manager, false),
      this.past(ids),
      this.loci.own(),
    ]);
    const loci = own.filter((one) => one.status === 'current');
    const standing = scores.filter(isStanding);
    const weights = new Map((input.traitWeights ?? []).map((w) => [w.traitId, w.weight]));
    const scored = new Map<string, typeof standing>();
    for (const score of standing) {
      const ofFish = scored.get(score.fishId);
      if (ofFish === undefined) scored.set(score.fishId, [score]);
      else ofFish.push(score);
    }
    const candidates = rows.map((row): PairingCandidate => ({
      ...toCandidate(row),
      genotypes: sets.get(row.id) ?? {},
      scores: (scored.get(row.id) ?? []).map((s) => ({
        traitId: s.traitId,
        value: s.value,
        scoredOn: s.scoredOn,
        traitVersion: s.traitVersion,
        ...(s.ageDays !== null && { ageDays: s.ageDays }),
      })),
    }));
    return {
      state,
      traits: new Map(traits.map((t) => [t.id, t])),
      input: {
        pedigree: state.pedigree,
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
          weight: weights.get(t.id) ?? (t.higherIsBetter === null ? 0 : 1),
        })),
        loci,
        wanted: (input.wantClasses ?? []).map((text) => toWish(text, [...catalogue, ...own])),
        ...(typeof input.inbreedingWeight === 'number' && {
          settings: { weights: { inbreeding: input.inbreedingWeight } },
        }),
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
