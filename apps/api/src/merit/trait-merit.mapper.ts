import { toComputation } from '../jobs/computation.mapper.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import { toTrait } from '../shapes/score.mapper.js';
import type { ModelAnswer, Refusal, RemlAnswer } from './merit-answer.js';
import type { MeritAnswer } from './merit-answer.js';
import { MeritModelKind, MeritPart } from './merit-enums.js';
import { remedies } from './remedies.js';
import { selectionOf } from './selection.js';
import type {
  FittedPartModel,
  HeritabilityHereModel,
  MeritModelAnswerModel,
  MeritRefusalModel,
  RemlEstimateModel,
  ScoredCountsModel,
  TraitMeritModel,
  TraitMeritResultModel,
  TraitModelSettingsModel,
  WorthScoringModel,
} from './trait-merit.model.js';
import { answerSoFar, type TraitStanding } from './trait-merit.service.js';
import type { TraitStock } from './trait-records.service.js';
import { priorOf, type TraitSettings, usualSettings } from './trait-settings.js';

export const toTraitMerit = (
  standing: TraitStanding,
  named: ReadonlyMap<string, NamedFishModel>,
): TraitMeritModel => {
  const { stock, waiting, fromLast } = standing;
  const answer = answerSoFar(standing);
  return {
    trait: toTrait(stock.trait),
    settings: toSettings(stock),
    fittedParts: stock.parts
      .filter(({ wished }) => wished)
      .map(({ part, fitted, whyNot }): FittedPartModel => ({ part, fitted, whyNot })),
    besideTraits: stock.besideNoted.map(({ trait, ...told }) => ({
      ...{ traitId: trait.id, name: trait.name },
      ...told,
    })),
    counts: countsOf(stock),
    selection: toSelection(stock),
    result:
      answer === null
        ? null
        : { ...toResult(answer, stock.settings), worthScoring: toWorth(stock, answer, named) },
    waiting: waiting === null ? null : toComputation(waiting),
    scoresTakenInSince: fromLast?.scoresMore ?? null,
    whyNotTakenIn: fromLast?.whyNot ?? null,
  };
};

const toSelection = (stock: TraitStock): TraitMeritModel['selection'] => {
  const { broods, notes, ...selection } = selectionOf(stock);
  return { ...selection, notes: [...notes], broods: [...broods] };
};

const partsOf = (settings: TraitSettings): MeritPart[] =>
  Object.values(MeritPart).filter((part) => settings[part]);

const toSettings = ({
  settings,
  settingsRevision,
  trait,
  beside,
}: TraitStock): TraitModelSettingsModel => {
  const usual = usualSettings(trait.kind);
  return {
    revision: settingsRevision,
    parts: partsOf(settings),
    // One that was withdrawn since is no choice any more.
    besideTraitIds: beside.map(({ id }) => id),
    prior: settings.prior,
    usualParts: partsOf(usual),
    usualPrior: usual.prior,
  };
};

const countsOf = ({
  task,
  looks,
  otherVersions,
  ageNotKnown,
  pedigree,
  facts,
}: TraitStock): ScoredCountsModel => {
  const fish = new Set(task.fish);
  const parents = (of: Int32Array): Set<number> =>
    new Set([...fish].map((i) => of[i]!).filter((p) => p >= 0 && pedigree.hidden?.[p] !== 1));
  const broods = new Set(
    [...fish].map((i) => facts.get(pedigree.ids[i]!)?.spawnId ?? null).filter((id) => id !== null),
  );
  return {
    looks: looks.length,
    otherVersions,
    ageNotKnown,
    fish: fish.size,
    broods: broods.size,
    sires: parents(pedigree.sire).size,
    dams: parents(pedigree.dam).size,
  };
};

export const toRefusal = (refusal: Refusal | null): MeritRefusalModel | null =>
  refusal === null ? null : { ...refusal, remedy: remedies[refusal.code] };

/** Fish worth scoring next, as far as whoever asks may see them. */
const toWorth = (
  { pedigree }: TraitStock,
  { worth }: MeritAnswer,
  named: ReadonlyMap<string, NamedFishModel>,
): WorthScoringModel[] =>
  worth.flatMap(({ fish, ...errors }) => {
    const one = named.get(pedigree.ids[fish]!);
    return one === undefined ? [] : [{ fish: one, ...errors }];
  });

const toResult = (
  answer: MeritAnswer,
  settings: TraitSettings,
): Omit<TraitMeritResultModel, 'worthScoring'> => ({
  shown: answer.shown,
  linear: toModel(answer.linear, MeritModelKind.LINEAR, settings),
  linearRefusal: toRefusal(answer.linearRefusal),
  threshold: toModel(answer.threshold, MeritModelKind.THRESHOLD, settings),
  thresholdRefusal: toRefusal(answer.thresholdRefusal),
  comparison:
    answer.comparison === null
      ? null
      : {
          rankCorrelation: answer.comparison.rankCorrelation,
          partWays: answer.comparison.partWays,
        },
  reml: answer.reml === null ? null : toReml(answer.reml),
  remlRefusal: toRefusal(answer.remlRefusal),
  notes: [...answer.notes],
  narrowing: [...answer.narrowing],
  leftOut: [...answer.leftOut],
});

const toModel = (
  model: ModelAnswer | null,
  kind: MeritModelKind,
  settings: TraitSettings,
): MeritModelAnswerModel | null =>
  model === null
    ? null
    : {
        kind,
        heritability: toHeritability(model, settings),
        shares: [
          { name: 'breeding value', share: model.shares.heritability },
          ...model.shares.others,
          { name: 'rest', share: model.shares.residual },
        ],
        effects: [...model.effects],
      };

const toHeritability = (
  { heritability }: ModelAnswer,
  { prior }: TraitSettings,
): HeritabilityHereModel => ({
  mean: heritability.mean,
  standardDeviation: heritability.standardDeviation,
  bands: [...heritability.bands],
  curve: [...heritability.grid],
  fromPrior: heritability.fromPrior,
  prior: {
    prior,
    mean: heritability.priorMean,
    standardDeviation: heritability.priorDeviation,
    source: priorOf({ prior }).source,
  },
});

const toReml = ({ heritability, terms, iterations }: RemlAnswer): RemlEstimateModel => ({
  heritability: heritability.value,
  standardError: heritability.standardError,
  atEdge: heritability.value <= 0 || heritability.value >= 1,
  terms: [...terms],
  iterations,
});
