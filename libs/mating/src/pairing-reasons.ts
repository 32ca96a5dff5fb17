import { RELATIONSHIP_TEXT } from './close-relationship.js';
import type { MidParent } from './mid-parent.js';
import type { PairingJudge } from './pairing-judge.js';
import type { PairingSettings } from './settings.js';
import type { RankedPairing, WishOutcome } from './ranked-pairing.js';
import { leastOr, percent, type Reason } from './reason.js';

/** Said with every list: what the bands of F are. */
export const BAND_CAUTION =
  'Bands of F are guides and no limits. F counts only ancestors on record, and how much a given F harms differs from line to line: watch hatch, growth and deformities of your own broods.';

/** Said with every mid-parent figure. */
export const MID_PARENT_CAUTION =
  "A parents' mean describes the two parents as last scored. It predicts neither the young nor a breeding value.";

type RowFacts = Omit<RankedPairing, 'reasons'>;

/** The reasons of one row, in a fixed order: relationship, classes, traits, then what stands in the way. */
export function pairingReasons(
  row: RowFacts,
  judge: PairingJudge,
  settings: PairingSettings,
): Reason[] {
  return [
    inbreedingReason(row, settings),
    ...relationshipReasons(row, judge),
    ...ancestryReasons(row, settings),
    ...row.wishes.map(wishReason),
    ...row.traits.map(traitReason),
    ...historyReasons(row),
    ...warningReasons(row),
  ];
}

function inbreedingReason(
  { inbreeding, band, basis, knownAncestry }: RowFacts,
  settings: PairingSettings,
): Reason {
  const figures = { inbreeding, band: band.id, ceiling: settings.inbreedingCeiling };
  if (inbreeding === 0) {
    const text =
      basis === 'known'
        ? 'No common ancestor: F of the brood is 0.'
        : 'No common ancestor on record: F of the brood is at least 0, and more if ancestors that are not known are related.';
    // Nothing on record speaks for a pairing only where something could be on record.
    const known =
      basis === 'known' ||
      Math.min(knownAncestry.sire, knownAncestry.dam) >= settings.knownAncestryFrom;
    return {
      code: 'UNRELATED',
      leaning: known ? 'for' : 'neutral',
      text,
      figures,
    };
  }
  return {
    code: 'BROOD_INBREEDING',
    leaning: inbreeding > settings.inbreedingCeiling + 1e-12 ? 'against' : 'neutral',
    text: `F of the brood is ${leastOr(basis)}${percent(inbreeding)}: ${basis === 'known' ? '' : 'by what is known, '}${band.text}.`,
    figures,
  };
}

function relationshipReasons(
  { relationship, commonAncestry, inbreeding }: RowFacts,
  judge: PairingJudge,
): Reason[] {
  const reasons: Reason[] = [];
  if (relationship) {
    const text = `Close relationship: ${RELATIONSHIP_TEXT[relationship]}.`;
    reasons.push({
      code: 'CLOSE_RELATIONSHIP',
      leaning: 'neutral',
      text,
      figures: { relationship, inbreeding },
    });
  }
  const { ancestors, count, complete } = commonAncestry;
  const first = ancestors[0];
  if (first) {
    const named = ancestors.map(
      ({ id, contribution }) => `${judge.nameOfId(id)} ${percent(contribution)}`,
    );
    const more = count - ancestors.length;
    const others = [
      ...(more > 0 ? [`${String(more)} more`] : []),
      ...(complete ? [] : ['older ones, which were not looked at,']),
    ];
    const rest = others.length > 0 ? `; ${others.join(' and ')} add the rest` : '';
    reasons.push({
      code: 'COMMON_ANCESTORS',
      leaning: 'neutral',
      text: `Common ancestors by what each adds to F: ${named.join(', ')}${rest}.`,
      figures: { largest: first.contribution, ancestor: first.id, count },
    });
  }
  return reasons;
}

/** Nothing to say where every origin is known; the figures may be less than 1 all the same only where one is not. */
function ancestryReasons({ basis, knownAncestry }: RowFacts, settings: PairingSettings): Reason[] {
  if (basis === 'known') return [];
  const known = Math.min(knownAncestry.sire, knownAncestry.dam);
  const text = `Ancestors known over ${String(settings.ancestryGenerations)} generations: ${percent(knownAncestry.sire)} on the sire's side, ${percent(knownAncestry.dam)} on the dam's. The origin of some is not known, so F may be higher than shown.`;
  const figures = {
    sire: knownAncestry.sire,
    dam: knownAncestry.dam,
    generations: settings.ancestryGenerations,
  };
  return [
    {
      code: 'UNKNOWN_ANCESTRY',
      leaning: known < settings.knownAncestryFrom ? 'against' : 'neutral',
      text,
      figures,
    },
  ];
}

function wishReason({ label, kind, share }: WishOutcome): Reason {
  const wanted = kind === 'wanted';
  if (share === null) {
    const text = `Whether ${label} may be expected is not known: a genotype it depends on is missing or only partly known, or its locus is one that is not computed.`;
    return { code: 'CLASS_NOT_KNOWN', leaning: 'neutral', text, figures: { class: label } };
  }
  const expected =
    share > 0 ? `${percent(share)} of the brood expected ${label}` : `no ${label} expected`;
  return {
    code: wanted ? 'WANTED_CLASS' : 'UNWANTED_CLASS',
    leaning: wanted === share > 0 ? 'for' : 'against',
    text: `${wanted ? 'Wanted' : 'Not wanted'}: ${expected}.`,
    figures: { class: label, share },
  };
}

const WHY_NO_MEAN: Readonly<Record<NonNullable<MidParent['whyNoMean']>, string>> = {
  NEITHER_SCORED: 'neither fish is scored',
  SIRE_NOT_SCORED: 'the sire is not scored',
  DAM_NOT_SCORED: 'the dam is not scored',
  VERSIONS_DIFFER: 'the two were scored under different versions of the trait',
};

function traitReason(trait: MidParent): Reason {
  const { mean, standing, range } = trait;
  if (mean === null || standing === null) {
    const code =
      trait.whyNoMean === 'VERSIONS_DIFFER' ? 'TRAIT_VERSIONS_DIFFER' : 'MID_PARENT_MISSING';
    const text = `${trait.name}: no parents' mean, because ${WHY_NO_MEAN[trait.whyNoMean ?? 'NEITHER_SCORED']}.`;
    return {
      code,
      leaning: 'neutral',
      text,
      figures: { trait: trait.traitId, count: trait.count },
    };
  }
  const [low, high] = range ?? [mean, mean];
  const side = standing > 0 ? 'better than' : standing < 0 ? 'below' : 'the same as';
  return {
    code: 'MID_PARENT',
    leaning: standing > 0 ? 'for' : standing < 0 ? 'against' : 'neutral',
    text: `${trait.name}: ${meanWords(trait, mean)}; ${side} the candidates' mean. Not a prediction of the young.`,
    figures: {
      trait: trait.traitId,
      mean,
      standing,
      count: trait.count,
      lowest: low,
      highest: high,
    },
  };
}

function meanWords({ yesNo, unit, range, count }: MidParent, mean: number): string {
  if (yesNo) {
    const yes =
      mean === 0 ? 'neither parent' : mean === 1 ? 'both parents' : 'one of the two parents';
    return `${yes}, as last scored`;
  }
  const [low, high] = range ?? [mean, mean];
  const [from, to] = [rounded(low), rounded(high)];
  const spread = count < 2 ? '' : from === to ? `, each ${from}` : `, between ${from} and ${to}`;
  return `parents' mean ${rounded(mean)}${unit === null ? '' : ` ${unit}`} from ${String(count)} scores${spread}`;
}

function historyReasons({ pastPairings }: RowFacts): Reason[] {
  const spawned = pastPairings.filter(({ outcome }) => outcome === 'spawned').length;
  if (spawned === 0) return [];
  const text = `These two have spawned together ${spawned === 1 ? 'once' : `${String(spawned)} times`} before.`;
  return [{ code: 'SPAWNED_BEFORE', leaning: 'neutral', text, figures: { spawned } }];
}

/** One reason a severity. */
function warningReasons({ warnings }: RowFacts): Reason[] {
  return (['stop', 'caution'] as const).flatMap((severity): Reason[] => {
    const texts = warnings
      .filter((warning) => warning.severity === severity)
      .map(({ text }) => text);
    if (texts.length === 0) return [];
    const lead = severity === 'stop' ? 'Do not pair now' : 'Think twice';
    const text = `${lead}: ${texts.join(' ')}`;
    return [
      {
        code: 'WARNINGS',
        leaning: 'against',
        text,
        figures: { severity, count: texts.length },
      },
    ];
  });
}

function rounded(value: number): string {
  return String(Number(value.toPrecision(4)));
}
