import { fieldError, type FieldProblem } from '../errors/request-error.js';
import type { LineOutcrossInput } from './outcross.inputs.js';
import { numberProblems, shareProblems } from './line-routes.inputs.js';

/** Characters of what a computation is about, which an index holds. */
const MOST_DESCRIBED = 1_000;

/** @throws RequestError VALIDATION that names each field. */
export const expectOutcrossInput = (input: LineOutcrossInput): void => {
  const { partnerId, described, share } = input;
  const problems = [
    ...numberProblems(input, 'generations', 6),
    ...numberProblems(input, 'forecastGenerations', 10),
    ...numberProblems(input, 'fryPerBrood', 100),
    ...shareProblems(share),
  ];
  if ((partnerId == null) === (described == null)) {
    const message = 'Choose one partner: a fish on record, or one described by its looks.';
    problems.push({ field: 'partnerId', message });
  }
  if (described != null) problems.push(...describedProblems(described));
  if (problems.length > 0) throw fieldError(...problems);
};

const describedProblems = ({
  sex,
  shows,
}: NonNullable<LineOutcrossInput['described']>): FieldProblem[] => {
  const problems: FieldProblem[] = [];
  if (sex !== 'male' && sex !== 'female') {
    const message = 'Say whether the partner is a male or a female.';
    problems.push({ field: 'described.sex', message });
  }
  const loci = shows.map(({ locusId }) => locusId);
  const twice = loci.find((id, k) => loci.indexOf(id) !== k);
  if (twice !== undefined)
    problems.push({ field: 'described.shows', message: `"${twice}" is told twice: tell it once.` });
  if (JSON.stringify(shows).length > MOST_DESCRIBED) {
    const message = `${shows.length} looks are too many for one fish: keep those that your line is wanted for.`;
    problems.push({ field: 'described.shows', message });
  }
  return problems;
};
