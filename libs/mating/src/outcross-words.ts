import type { OutcrossFacts } from './outcross/outcross-facts.js';
import { leastOr, percent, type PairingWarning, type Reason } from './reason.js';
import type { PairingSettings } from './settings.js';
import type { WantedOutcome } from './wanted-in-partner.js';

/** Why a partner stands where it does. */
export function outcrossReasons(
  facts: OutcrossFacts,
  names: (id: string) => string,
  settings: PairingSettings,
): Reason[] {
  return [
    ...facts.wanted.map(wantedReason),
    relationReason(facts, names, settings),
    ...crossReasons(facts, names),
  ];
}

function wantedReason({ wanted, label, answer, value }: WantedOutcome): Reason {
  const figures = { wanted: label, answer, ...(value === null ? {} : { value }) };
  const verb =
    wanted.kind === 'allele' ? 'carries' : wanted.kind === 'phenotype' ? 'shows' : 'scores';
  switch (answer) {
    case 'yes': {
      const latest = value === null ? '' : `: latest score ${String(value)}`;
      return {
        code: 'CARRIES_WANTED',
        leaning: 'for',
        text: `It ${verb} ${label}${latest}.`,
        figures,
      };
    }
    case 'possible': {
      const text = `Its genotype is partly known: it may be one that ${verb} ${label}.`;
      return { code: 'WANTED_NOT_KNOWN', leaning: 'neutral', text, figures };
    }
    case 'no': {
      const latest = value === null ? '' : `: latest score ${String(value)}`;
      return {
        code: 'LACKS_WANTED',
        leaning: 'against',
        text: `It lacks ${label}${latest}.`,
        figures,
      };
    }
    case 'unknown': {
      const text = `Whether it ${verb} ${label} is not on record.`;
      return { code: 'WANTED_NOT_KNOWN', leaning: 'neutral', text, figures };
    }
  }
}

function relationReason(
  { meanCoancestry, closest, basis, knownAncestry }: OutcrossFacts,
  names: (id: string) => string,
  { knownAncestryFrom }: PairingSettings,
): Reason {
  const figures = { meanCoancestry, closest: closest.id, closestCoancestry: closest.coancestry };
  if (closest.coancestry === 0) {
    const text =
      basis === 'known'
        ? 'No common ancestor with any fish of the line in use.'
        : 'No common ancestor on record with any fish of the line in use; the origin of some fish is not known.';
    const known = basis === 'known' || knownAncestry >= knownAncestryFrom;
    return { code: 'MEAN_COANCESTRY', leaning: known ? 'for' : 'neutral', text, figures };
  }
  const text = `Mean coancestry with the line's fish in use ${leastOr(basis)}${percent(meanCoancestry)}; closest to ${names(closest.id)} at ${percent(closest.coancestry)}.`;
  return { code: 'MEAN_COANCESTRY', leaning: 'neutral', text, figures };
}

function crossReasons(facts: OutcrossFacts, names: (id: string) => string): Reason[] {
  const { firstCross, returnToLine, returnTwice, returnToParent, withinLine } = facts;
  const { basis, basisWithinLine } = facts;
  if (!firstCross) return [];
  const compared =
    withinLine === null
      ? ''
      : `; the line's own pairings average ${leastOr(basisWithinLine)}${percent(withinLine)}`;
  const reasons: Reason[] = [
    {
      code: 'FIRST_CROSS',
      leaning: withinLine !== null && firstCross.mean < withinLine ? 'for' : 'neutral',
      text: `F of the first cross averages ${leastOr(basis)}${percent(firstCross.mean)} over its mates in the line (least with ${names(firstCross.bestMateId)}, ${percent(firstCross.least)})${compared}.`,
      figures: {
        mean: firstCross.mean,
        least: firstCross.least,
        most: firstCross.most,
        bestMate: firstCross.bestMateId,
        ...(withinLine === null ? {} : { withinLine }),
      },
    },
  ];
  if (returnToParent !== null) {
    const others =
      returnToLine === null
        ? ''
        : `${percent(returnToLine)} on average with other fish of the line, `;
    reasons.push({
      code: 'RETURN_TO_LINE',
      leaning: 'neutral',
      text: `Returned to the line, young of that cross give broods with F of ${leastOr(basis)}${others}${percent(returnToParent)} with their own line parent.`,
      figures: { returnToParent, ...(returnToLine === null ? {} : { returnToLine }) },
    });
  }
  if (returnTwice !== null) {
    reasons.push({
      code: 'RETURN_TWICE',
      leaning: 'neutral',
      text: `Returned once more, to a third fish of the line, they give broods with F of ${leastOr(basis)}${percent(returnTwice)} on average.`,
      figures: { returnTwice },
    });
  }
  return reasons;
}

/** How much of a partner is left, whoever it is: to be told once. By Mendel's rule, halved at each return. */
export const OUTCROSS_SHARES =
  'Young of the first cross have half of their genes from the partner; returned to the line once they have a quarter, twice an eighth. Genes next to those you choose for stay longer.';

/** What holds for any outcross, whoever the partner is: to be told once. */
export const OUTCROSS_CAUTIONS = [
  {
    code: 'OUTCROSS_IS_A_TRIAL',
    text: 'An outcross is a trial too. Among zebrafish lines both inbreeding and outbreeding depression were found (Monson CA & Sadler KC 2010, Inbreeding depression and outbreeding depression are evident in wild-type zebrafish lines, Zebrafish 7:189-197): raise one brood, compare hatch, growth and type with the line, and keep the line going beside it.',
    basis: 'read in the source (abstract)',
  },
  {
    code: 'QUARANTINE',
    text: 'A fish from another room can carry disease that does not show, to your fish and through cuts to you. Keep it apart first, with its own water and net: 21 to 30 days are commonly advised, with little evidence on the best length. Ask a vet about signs of disease.',
    basis: 'read second-hand',
  },
] as const;

/** What is to be told of this partner. */
export function outcrossCautions(
  { basis, knownAncestry }: OutcrossFacts,
  { knownAncestryFrom, ancestryGenerations }: PairingSettings,
): PairingWarning[] {
  if (basis !== 'at-least' || knownAncestry >= knownAncestryFrom) return [];
  return [
    {
      code: 'UNKNOWN_ANCESTRY',
      severity: 'note',
      concerns: 'pair',
      text: `Only ${percent(knownAncestry)} of its ancestors in ${String(ancestryGenerations)} generations are known: it may still be related to the line.`,
      figures: { known: knownAncestry, generations: ancestryGenerations },
      basis: 'computed',
    },
  ];
}
