import type { HowInherited, LinkageAnswer, Recombination } from '../../api/inheritance.js';

const VERDICTS: Record<HowInherited['verdict'], string> = {
  NOT_INHERITED: 'It does not look inherited: each fish is as likely to show it.',
  ONE_LOCUS: 'It looks inherited through one locus.',
  TWO_LOCI: 'It looks inherited through two loci.',
  MANY_LOCI: 'It looks inherited through many loci, each of small effect.',
  CANNOT_TELL: 'These records cannot tell yet.',
};

/** The verdict on one look, in a sentence; with what could not be weighed against it. */
export function inheritanceVerdict({
  verdict,
  leftOut,
}: Pick<HowInherited, 'verdict' | 'leftOut'>): string {
  if (leftOut === 0 || verdict === 'CANNOT_TELL') return VERDICTS[verdict];
  return `Of the ways that could be weighed: ${VERDICTS[verdict].replace('It looks', 'it looks').replace('It does', 'it does')}`;
}

/** A weight in percent, never quite all or nothing. */
export function weightText(weight: number): string {
  if (weight > 0.999) return 'over 99.9 %';
  return weight < 0.001 ? 'under 0.1 %' : `${(100 * weight).toFixed(1)} %`;
}

const inHundred = (share: number): string => {
  const young = 100 * share;
  return young < 10 && young > 0 ? young.toFixed(1) : young.toFixed(0);
};

/** How often two loci part, with its interval, of a hundred gametes. */
export function recombinationText({ recombination, low, high }: Recombination): string {
  return `${inHundred(recombination)} of 100 gametes (${inHundred(low)} to ${inHundred(high)})`;
}

/** The verdict on two looks, in a sentence or two. */
export function linkageVerdict(answer: LinkageAnswer): string {
  if (answer.verdict === 'TOGETHER')
    return `Inherited together: they part in about ${recombinationText(answer)}.`;
  if (answer.verdict === 'APART')
    return `Not closely linked: they part in at least ${inHundred(answer.notCloserThan)} of 100 gametes. 50 of 100 is free.`;
  const least =
    answer.notCloserThan > 0
      ? ` They part in at least ${inHundred(answer.notCloserThan)} of 100 gametes.`
      : '';
  return `These broods cannot tell yet.${least} Count more young of parents that carry both.`;
}
