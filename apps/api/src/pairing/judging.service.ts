import { catalogue, findLocus, type Locus } from '@linewright/heredity';
import {
  type ClassWish,
  type OutcrossSuggestion,
  type PairingCandidate,
  type PairingExplanation,
  type PairingFilter,
  type PairingInput as JudgedInput,
  type PairingOrder,
  type PairingRanking,
  type PastPairing,
  explainPairing,
  rankPairings,
  suggestOutcrosses,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { RequestError, fieldError, notFound } from '../errors/request-error.js';
import type { SortDirection } from '../graphql/enums.js';
import { GenotypesService } from '../heredity/genotypes.service.js';
import { LociService } from '../heredity/loci.service.js';
import { hiddenParentId, hiddenParentTag } from '../kinship/hidden-parents.js';
import { namedFish } from '../kinship/named-fish.js';
import { type PedigreeState, PedigreeService } from '../kinship/pedigree.service.js';
import { isStanding } from '../scores/score.loader.js';
import { ScoresService } from '../scores/scores.service.js';
import { TraitsService } from '../scores/traits.service.js';
import type { TraitDefinitionRow } from '../scores/score.entity.js';
import type { NamedFishModel } from '../population/named-fish.model.js';
import type { OutcrossInput, PairingInput, PairingSortField } from './pairing.inputs.js';

const CANDIDATES = `
  SELECT f.id, f.tag, f.sex, f.hatch_date::text AS "hatchedOn", f.spawn_id AS "spawnId", f.line_id AS "lineId",
    l.name AS "lineName",
    (SELECT max(coalesce(s.spawned_on, s.hatch_date))::text FROM spawn s
      WHERE (s.sire_id = f.id OR s.dam_id = f.id) AND s.withdrawn_at IS NULL) AS "lastSpawnedOn"
  FROM fish f LEFT JOIN line l ON l.id = f.line_id
  WHERE f.withdrawn_at IS NULL AND (f.id = ANY($1::uuid[])
    OR ($2 AND f.disposition IN ('keeper', 'hold') AND ($3::uuid[] IS NULL OR f.line_id = ANY($3::uuid[]))))
  ORDER BY f.tag, f.id LIMIT 2000`;

const PAST = `
  SELECT sire_id AS "sireId", dam_id AS "damId", spawned_on::text AS "on", failed, failed_reason AS reason
  FROM spawn WHERE withdrawn_at IS NULL AND sire_id = ANY($1::uuid[]) AND dam_id = ANY($1::uuid[])`;

interface CandidateRow {
  id: string;
  tag: string;
  sex: string;
  hatchedOn: string | null;
  spawnId: string | null;
  lineId: string | null;
  lineName: string | null;
  lastSpawnedOn: string | null;
}

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
    private readonly scores: ScoresService,
    private readonly traits: TraitsService,
    private readonly clock: Clock,
  ) {}

  async rank(
    input: PairingInput,
    sort: PairingSortField,
    direction: SortDirection,
  ): Promise<{ judged: Judged; ranking: PairingRanking }> {
    const rows = await this.candidates(
      [...(input.sireIds ?? []), ...(input.damIds ?? [])],
      input.lineIds ?? null,
      true,
    );
    const judged = await this.judge(rows, input);
    const filter: PairingFilter = {
      ...(input.sireIds?.length ? { sireIds: input.sireIds } : {}),
      ...(input.damIds?.length ? { damIds: input.damIds } : {}),
      ...(typeof input.maximumInbreeding === 'number' && {
        maximumInbreeding: input.maximumInbreeding,
      }),
      ...(input.linesOfPair === 'WITHIN' && { withinLine: true }),
      ...(!input.includeDiscouraged && { leaveOutFrom: 'stop' as const }),
    };
    return {
      judged,
      ranking: rankPairings(judged.input, filter, {
        ...this.order(sort, direction),
        withinLineFirst: input.linesOfPair === 'WITHIN_FIRST',
      }),
    };
  }

  async explain(
    sireId: string,
    damId: string,
  ): Promise<{ judged: Judged; explanation: PairingExplanation }> {
    const rows = await this.candidates([sireId, damId], null, false);
    const judged = await this.judge(rows, {});
    return { judged, explanation: explainPairing(judged.input, sireId, damId, 1) };
  }

  async outcrosses(input: OutcrossInput): Promise<readonly OutcrossSuggestion[]> {
    const rows = await this.candidates([], null, true);
    const inLine = new Set(rows.filter((row) => row.lineId === input.lineId).map((row) => row.id));
    if (inLine.size === 0) {
      throw fieldError({
        field: 'lineId',
        message: 'This line has no fish in use: mark its keepers first.',
      });
    }
    const { input: judged } = await this.judge(rows, {});
    return suggestOutcrosses({
      pedigree: judged.pedigree,
      ...(judged.loci !== undefined && { loci: judged.loci }),
      line: judged.candidates.filter((c) => inLine.has(c.id)),
      candidates: judged.candidates.filter((c) => !inLine.has(c.id)),
      asOf: judged.asOf,
      limit: Math.min(Math.max(input.first, 1), 100),
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

  private async judge(rows: CandidateRow[], input: Partial<PairingInput>): Promise<Judged> {
    const ids = rows.map((row) => row.id);
    const [state, sets, scores, traits, past, own] = await Promise.all([
      this.pedigrees.state(),
      this.genotypes.setsOf(ids),
      this.scores.ofFish(ids),
      this.traits.list(false),
      this.past(ids),
      this.loci.own(),
    ]);
    const loci = own.filter((one) => one.status === 'current');
    const standing = scores.filter(isStanding);
    const weights = new Map((input.traitWeights ?? []).map((w) => [w.traitId, w.weight]));
    const candidates = rows.map((row): PairingCandidate => ({
      id: row.id,
      tag: row.tag,
      sex: row.sex === 'male' || row.sex === 'female' ? row.sex : 'unknown',
      ...(row.hatchedOn !== null && { hatchedOn: row.hatchedOn }),
      ...(row.lastSpawnedOn !== null && { lastSpawnedOn: row.lastSpawnedOn }),
      ...(row.spawnId !== null && { spawnId: row.spawnId }),
      ...(row.lineId !== null && { line: { id: row.lineId, name: row.lineName ?? '' } }),
      genotypes: sets.get(row.id) ?? {},
      scores: standing
        .filter((s) => s.fishId === row.id)
        .map((s) => ({
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
        candidates,
        asOf: this.clock.today(),
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

  private async candidates(
    ids: string[],
    lineIds: string[] | null,
    inUse: boolean,
  ): Promise<CandidateRow[]> {
    const lines = lineIds?.length ? lineIds : null;
    const rows = (await this.dataSource.query(CANDIDATES, [ids, inUse, lines])) as CandidateRow[];
    const missing = ids.find((id) => !rows.some((row) => row.id === id));
    if (missing !== undefined) throw notFound('fish', missing);
    return rows;
  }

  private async past(ids: string[]): Promise<PastPairing[]> {
    const rows = (await this.dataSource.query(PAST, [ids])) as {
      sireId: string;
      damId: string;
      on: string | null;
      failed: boolean;
      reason: string | null;
    }[];
    return rows.map((row) => ({
      sireId: row.sireId,
      damId: row.damId,
      outcome: row.failed ? 'failed' : 'spawned',
      ...(row.on !== null && { on: row.on }),
      ...(row.reason !== null && { reason: row.reason }),
    }));
  }

  private async names(): Promise<Map<string, string>> {
    const rows = (await this.dataSource.query(
      `SELECT DISTINCT f.id, f.tag FROM fish f JOIN spawn s ON s.sire_id = f.id OR s.dam_id = f.id`,
    )) as { id: string; tag: string }[];
    const names = new Map(rows.map((row) => [row.id, row.tag]));
    const spawns = (await this.dataSource.query(
      'SELECT id, tag FROM spawn WHERE sire_id IS NULL OR dam_id IS NULL',
    )) as { id: string; tag: string }[];
    for (const { id, tag } of spawns) {
      for (const role of ['sire', 'dam'] as const) {
        names.set(hiddenParentId(id, role), hiddenParentTag(role, tag));
      }
    }
    return names;
  }

  named(ids: readonly string[]): Promise<Map<string, NamedFishModel>> {
    return namedFish(this.dataSource, [...new Set(ids)]);
  }

  private order(sort: PairingSortField, direction: SortDirection): PairingOrder {
    const by = ({ MERIT: 'score', INBREEDING: 'inbreeding', SIRE: 'sire', DAM: 'dam' } as const)[
      sort
    ];
    const natural = by === 'score' ? 'DESC' : 'ASC';
    return { by, reversed: direction !== natural };
  }
}

const toWish = (text: string, loci: readonly Locus[]): ClassWish => {
  const [locusId, phenotypeId] = text.split(':');
  if (locusId === undefined || phenotypeId === undefined) {
    throw new RequestError(
      'VALIDATION',
      `"${text}" is not a wanted look: give locus:phenotype, such as bl:royal.`,
    );
  }
  const locus = findLocus(locusId, loci);
  if (!locus.phenotypes.some((p) => p.id === phenotypeId)) {
    throw new RequestError(
      'VALIDATION',
      `${locus.name} has no look "${phenotypeId}": give one of ${locus.phenotypes.map((p) => p.id).join(', ')}.`,
    );
  }
  return { show: { [locusId]: phenotypeId } };
};
