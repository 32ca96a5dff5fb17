import { type OutcrossSuggestion, suggestOutcrosses } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { fieldError } from '../errors/request-error.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { GenotypesService } from '../loci/genotypes.service.js';
import { LociService } from '../loci/loci.service.js';
import { candidateRows, toCandidate } from '../stock/candidate-rows.js';
import { scoresOfFish } from '../stock/score.loader.js';
import type { OutcrossInput } from './pairing.inputs.js';
import { standingScores } from './standing-scores.js';

const MOST_OUTCROSSES = 100;

/** Partners for a line from outside it; loads no more than they are judged by. */
@Injectable()
export class OutcrossesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly pedigrees: PedigreeService,
    private readonly genotypes: GenotypesService,
    private readonly loci: LociService,
    private readonly clock: Clock,
  ) {}

  async of(input: OutcrossInput): Promise<readonly OutcrossSuggestion[]> {
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
    const ids = rows.map((row) => row.id);
    const minimums = input.minimumTraits ?? [];
    const [{ pedigree, declared }, sets, scores, own] = await Promise.all([
      this.pedigrees.state(),
      this.genotypes.setsOf(ids),
      minimums.length === 0 ? [] : scoresOfFish(this.dataSource, ids),
      this.loci.own(),
    ]);
    const scored = standingScores(scores);
    const fish = rows.map((row) => ({
      ...toCandidate(row),
      genotypes: sets.get(row.id) ?? {},
      scores: scored.get(row.id) ?? [],
    }));
    return suggestOutcrosses({
      pedigree,
      unrelatedOrigin: pedigree.ids.filter((_, i) => declared[i] === 1),
      loci: own.filter(({ status }) => status === 'current'),
      line: fish.filter(({ id }) => inLine.has(id)),
      candidates: fish.filter(({ id }) => !inLine.has(id)),
      asOf: this.clock.today(),
      limit,
      wanted: [
        ...(input.wantAlleles ?? []).map(({ locusId, alleleId }) => ({
          kind: 'allele' as const,
          locusId,
          alleleId,
        })),
        ...minimums.map(({ traitId, minimum }) => ({
          kind: 'trait' as const,
          traitId,
          atLeast: minimum,
        })),
      ],
    });
  }
}

const expectFirst = (first: number): number => {
  if (first >= 1 && first <= MOST_OUTCROSSES) return first;
  throw fieldError({
    field: 'first',
    message: `${first} partners to suggest: give a whole number from 1 to ${MOST_OUTCROSSES}.`,
  });
};
