import { expectBetween } from '../expect-number.js';
import type { AmmoniaNitrogen } from './ammonia-units.js';

const ZERO_CELSIUS = 273.15;

/** Temperatures the equation was fitted to, in degrees C; beyond 30 the printed tables were not checked by their authors. */
export const fittedCelsius = { least: 0, most: 30 } as const;
/** Temperatures at which the equation is answered at all, degrees C. */
export const answeredCelsius = { least: 0, most: 50 } as const;
/** pH of the printed tables, and the widest pH taken for a reading of a tank. */
export const tabledPH = { least: 6, most: 10 } as const;
export const answeredPH = { least: 4, most: 11 } as const;

export interface WaterState {
  readonly pH: number;
  /** Degrees Celsius. */
  readonly celsius: number;
}

/**
 * For a temperature too high to be degrees C of a tank, what it is if it was read in degrees F; nothing for any other.
 *
 * @example fahrenheitHint(78) // ' If it was read in °F: that is 25.6 °C.'
 */
export function fahrenheitHint(celsius: number): string {
  const read = ((celsius - 32) * 5) / 9;
  if (!(celsius > answeredCelsius.most) || read > answeredCelsius.most) return '';
  return ` If it was read in °F: that is ${read.toFixed(1)} °C.`;
}

/**
 * pKa of ammonium in fresh water: 0.09018 + 2729.92 / T, T in kelvin = degrees C + 273.15.
 *
 * Source: Emerson K, Russo RC, Lund RE, Thurston RV (1975) Aqueous ammonia equilibrium calculations: effect of pH and
 * temperature. J Fish Res Board Can 32:2379-2383. Some copies print 2727.92: that gives about 1.5 % more un-ionised
 * ammonia and fails the printed tables. Percentages of the time used 273.2 for 273.15: about 0.4 % more.
 *
 * Assumes fresh water: salt lowers the un-ionised share slightly, so that for water of up to 5 g/L the answer errs on the
 * safe side.
 *
 * @throws CareError CARE_NOT_A_NUMBER, or CARE_OUT_OF_RANGE outside 0-50 degrees C.
 */
export function ammoniumPKa(celsius: number): number {
  expectBetween(
    'The temperature (degrees C)',
    celsius,
    answeredCelsius.least,
    answeredCelsius.most,
    fahrenheitHint(celsius),
  );
  return 0.09018 + 2729.92 / (celsius + ZERO_CELSIUS);
}

/**
 * Share of total ammonia that is un-ionised (NH3), 0..1: 1 / (1 + 10^(pKa - pH)). Rises with pH and with temperature.
 *
 * @throws CareError CARE_NOT_A_NUMBER, or CARE_OUT_OF_RANGE outside 0-50 degrees C or pH 4-11.
 * @example unionisedShare({ pH: 8, celsius: 24 }) // 0.0502
 */
export function unionisedShare({ pH, celsius }: WaterState): number {
  expectBetween('The pH', pH, answeredPH.least, answeredPH.most);
  return 1 / (1 + 10 ** (ammoniumPKa(celsius) - pH));
}

export interface UnionisedAmmonia {
  /** Un-ionised ammonia, mg/L as N. */
  readonly amount: AmmoniaNitrogen;
  /** Total ammonia it is a share of, mg/L as N. */
  readonly total: AmmoniaNitrogen;
  readonly share: number;
  readonly pKa: number;
  /** True beyond the tables printed from the equation (0-30 degrees C, pH 6-10): computed, and marked. */
  readonly beyondTables: boolean;
}

/**
 * Un-ionised ammonia of a reading, with what it was computed from.
 *
 * @throws CareError as {@link unionisedShare}.
 * @example unionisedAmmonia(ammoniaNitrogen(1, 'N'), { pH: 8, celsius: 24 }).amount // 0.0502 mg/L as N
 */
export function unionisedAmmonia(total: AmmoniaNitrogen, state: WaterState): UnionisedAmmonia {
  const share = unionisedShare(state);
  return {
    amount: (total * share) as AmmoniaNitrogen,
    total,
    share,
    pKa: ammoniumPKa(state.celsius),
    beyondTables:
      state.celsius > fittedCelsius.most || state.pH < tabledPH.least || state.pH > tabledPH.most,
  };
}

/**
 * Most total ammonia (mg/L as N) that keeps un-ionised ammonia at or under a limit: limit / share.
 *
 * @example mostTotalFor(ammoniaNitrogen(0.02, 'N'), { pH: 7, celsius: 28 }) // 2.88
 */
export function mostTotalFor(limit: AmmoniaNitrogen, state: WaterState): AmmoniaNitrogen {
  return (limit / unionisedShare(state)) as AmmoniaNitrogen;
}
