import { fieldError } from '../errors/request-error.js';
import type { FishRow } from '../stock/rows/fish.entity.js';
import type { VesselCompany } from './vessel.enums.js';

type Sexed = Pick<FishRow, 'tag' | 'sex'>;

/**
 * Whether fish are what they are said to be together as.
 *
 * @param broods how many spawns are with them.
 * @throws RequestError `VALIDATION` on `company`.
 */
export const expectFits = (
  company: VesselCompany,
  fish: readonly Sexed[],
  broods: number,
): void => {
  const why = whyNot(company, fish, broods);
  if (why !== null) throw fieldError({ field: 'company', message: `${why} Nothing was moved.` });
};

const whyNot = (company: VesselCompany, fish: readonly Sexed[], broods: number): string | null => {
  const males = fish.filter(({ sex }) => sex === 'male');
  const females = fish.filter(({ sex }) => sex === 'female');
  if (company === 'sorority') {
    const other = fish.find(({ sex }) => sex !== 'female');
    return other === undefined
      ? null
      : `A group of females has females alone: ${other.tag} is ${other.sex === 'male' ? 'a male' : 'not known to be one'}.`;
  }
  if (company === 'pair')
    return fish.length === 2 && males.length === 1 && females.length === 1
      ? null
      : 'A pair is one male and one female.';
  return broods === 0 && males.length > 1 && fish.length === males.length
    ? 'Males that are known as such no longer grow up together: they fight.'
    : null;
};
