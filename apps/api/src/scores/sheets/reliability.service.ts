import {
  type ScorerDifference,
  MeritError,
  repeatGroups,
  repeatability,
  scorerDifferences,
} from '@linewright/merit';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { RecordStore } from '../../stock/record-store.js';
import { fieldError } from '../../errors/request-error.js';
import type { RepeatabilityModel, TraitReliabilityModel } from './reliability.model.js';
import { type ScoreOfTrait, scoresOfTrait } from '../../stock/score-rows.js';
import { traitRecord } from '../../stock/record-types.js';

/** Below this many fish a figure is shown with the advice not to rely on it. */
const ENOUGH_FISH = 10;
const MOST_DRAWN = 200;

const estimate = (
  groups: readonly (readonly ScoreOfTrait[])[],
): { figure: RepeatabilityModel | null; tooFew: string | null } => {
  if (groups.length < 2)
    return {
      figure: null,
      tooFew:
        'Score at least two fish twice within the window, the second time without looking at the first figure.',
    };
  try {
    const figure = repeatability(groups.map((group) => group.map(({ value }) => value)));
    const tooFew =
      groups.length < ENOUGH_FISH
        ? `Only ${groups.length} fish were scored more than once: the interval says how little that tells. Ten or more make a start.`
        : null;
    return { figure, tooFew };
  } catch (error) {
    if (!(error instanceof MeritError)) throw error;
    return { figure: null, tooFew: error.message };
  }
};

/** Repeats and scorers of one trait, from its standing scores. */
@Injectable()
export class ReliabilityService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  async ofTrait(traitId: string, windowDays: number): Promise<TraitReliabilityModel> {
    if (windowDays < 0 || windowDays > 366)
      throw fieldError({
        field: 'windowDays',
        message: `A window of ${windowDays} days: give 0 to 366.`,
      });
    const trait = await this.records.find(this.dataSource.manager, traitRecord, traitId);
    const all = await scoresOfTrait(this.dataSource, traitId);
    const current = all.filter(({ version }) => version === trait.version);
    const groups = repeatGroups(current, windowDays);
    const repeated = groups.filter((group) => group.length > 1).sort((a, b) => b.length - a.length);
    const { figure, tooFew } = estimate(repeated);
    const scorers: ScorerDifference[] = scorerDifferences(repeated.flat());
    return {
      windowDays,
      traitVersion: trait.version,
      otherVersions: all.length - current.length,
      fishScored: groups.length,
      fishRepeated: repeated.length,
      repeatability: figure,
      tooFew,
      scorers: scorers.map((pair) => ({ ...pair })),
      scores: repeated
        .slice(0, MOST_DRAWN)
        .flat()
        .map(({ fish, tag, scorer, value, scoredOn }) => ({
          fishId: fish,
          tag,
          scorer,
          value,
          scoredOn,
        })),
    };
  }
}
