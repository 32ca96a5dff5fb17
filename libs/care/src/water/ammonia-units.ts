import { CareError } from '../care-error.js';
import { expectBetween } from '../expect-number.js';

/** Nitrogen in ammonia of either form, mg/L as N: the unit every computation here is done in. */
export type AmmoniaNitrogen = number & { readonly unit: 'mg/L as N' };

/**
 * What a kit's figure stands for: nitrogen alone (`N`, often printed NH3-N, NH4-N or TAN), or the mass of all of it
 * counted as ammonium (`NH4`) or as ammonia (`NH3`). The same water reads 1.00 as N, 1.29 as NH4 and 1.22 as NH3, so a
 * figure without its unit is not a reading.
 */
export type AmmoniaUnit = 'N' | 'NH4' | 'NH3';

export const ammoniaUnits: readonly AmmoniaUnit[] = ['N', 'NH4', 'NH3'];

/** Standard atomic weights, g/mol (IUPAC, abridged to five digits). */
const NITROGEN = 14.007;
const HYDROGEN = 1.008;

/**
 * Mass of one unit of nitrogen written in each unit: 1, NH4/N = 18.039/14.007 = 1.2879, NH3/N = 17.031/14.007 = 1.2159.
 */
export const massPerNitrogen: Readonly<Record<AmmoniaUnit, number>> = {
  N: 1,
  NH4: (NITROGEN + 4 * HYDROGEN) / NITROGEN,
  NH3: (NITROGEN + 3 * HYDROGEN) / NITROGEN,
};

/** mg/L above which a figure is taken for a slip of the pen: no tank with a live fish reads this. */
const MOST = 1_000;

/**
 * A kit's figure as mg/L of nitrogen.
 *
 * @throws CareError CARE_NOT_A_NUMBER, or CARE_OUT_OF_RANGE below 0 or above 1000 mg/L.
 * @example ammoniaNitrogen(1.29, 'NH4') // 1.0017 mg/L as N
 */
export function ammoniaNitrogen(value: number, unit: AmmoniaUnit): AmmoniaNitrogen {
  expectBetween('The ammonia figure (mg/L)', value, 0, MOST);
  const mass = massPerNitrogen[unit];
  if (mass === undefined) {
    throw new CareError(
      'CARE_OUT_OF_RANGE',
      `"${unit}" is not a unit of ammonia: give N, NH4 or NH3, as the kit prints.`,
      { unit },
    );
  }
  return (value / mass) as AmmoniaNitrogen;
}

/**
 * The same amount written in another unit, mg/L.
 *
 * @example ammoniaIn(ammoniaNitrogen(1, 'N'), 'NH3') // 1.2159
 */
export function ammoniaIn(amount: AmmoniaNitrogen, unit: AmmoniaUnit): number {
  return amount * massPerNitrogen[unit];
}
