import type { introspection_types } from '../api/graphql-env.js';

type EnumValues<Name extends keyof introspection_types> = introspection_types[Name] extends {
  enumValues: infer Values;
}
  ? Values & string
  : never;

export type AmmoniaUnit = EnumValues<'AmmoniaUnit'>;
export type NitrogenForm = EnumValues<'NitrogenForm'>;
export type WaterStanding = EnumValues<'WaterStanding'>;
export type TrustState = EnumValues<'TrustState'>;
export type SurvivalStart = EnumValues<'SurvivalStart'>;

/** What each unit is printed as on kits. */
export const ammoniaUnitChoices: readonly { value: AmmoniaUnit; label: string; hint: string }[] = [
  { value: 'N', label: 'as N', hint: 'printed N, NH3-N, NH4-N or TAN' },
  { value: 'NH4', label: 'as NH4', hint: 'printed NH4 or NH4+' },
  { value: 'NH3', label: 'as NH3', hint: 'printed NH3, no N behind it' },
];

export const ammoniaUnitWord: Record<AmmoniaUnit, string> = {
  N: 'as N',
  NH4: 'as NH4',
  NH3: 'as NH3',
};

export const standingWord: Record<WaterStanding, string> = {
  UNDER: 'under the limit',
  NEAR: 'near the limit',
  OVER: 'over the limit',
  UNKNOWN: 'not computed',
};

export const trustWord: Record<TrustState, string> = {
  FRESH: 'fresh',
  AGEING: 'ageing',
  OLD: 'old',
};

export const startWord: Record<SurvivalStart, string> = {
  EGGS: 'the eggs',
  HATCHED: 'the fry hatched',
  FREE_SWIMMING: 'the fry swimming free',
};

/** Two digits that matter: 0.0123 -> "0.012". */
export function milligrams(value: number): string {
  if (value === 0) return '0';
  return value >= 100 ? value.toFixed(0) : String(Number(value.toPrecision(2)));
}
