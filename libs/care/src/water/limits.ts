import { neverAcidCaution } from './cautions.js';
import { type AmmoniaNitrogen, type AmmoniaUnit, ammoniaNitrogen } from './ammonia-units.js';

/** How far a figure can be leaned on. */
export type Confidence = 'extension' | 'guideline' | 'practice' | 'study';

export interface AmmoniaLimit {
  readonly id: 'guidance' | 'canada-chronic' | 'extension-harm' | 'extension-deaths';
  readonly name: string;
  /** As the source gives it, mg/L of un-ionised ammonia in `unit`. */
  readonly value: number;
  readonly unit: AmmoniaUnit;
  readonly source: string;
  readonly confidence: Confidence;
  /** Whether water may be steered towards it; a figure at which fish are harmed is only to compare with. */
  readonly aim: boolean;
  readonly remark: string;
}

/**
 * Limits for un-ionised ammonia, strictest first. None was set for *Betta splendens*: they are figures to compare with.
 */
export const ammoniaLimits: readonly AmmoniaLimit[] = [
  {
    id: 'canada-chronic',
    name: 'Canadian guideline for long exposure',
    value: 0.019,
    unit: 'NH3',
    source:
      'Canadian water quality guideline for the protection of aquatic life (0.0156 mg/L as N)',
    confidence: 'guideline',
    aim: true,
    remark: 'Made for wild waters and all their life, for exposure without end.',
  },
  {
    id: 'guidance',
    name: 'Usual guidance',
    value: 0.02,
    unit: 'NH3',
    source: 'common practice, no source',
    confidence: 'practice',
    aim: true,
    remark:
      'Passed on among fishkeepers, mostly without saying as NH3 or as N; taken as NH3, the stricter.',
  },
  {
    id: 'extension-harm',
    name: 'Harm begins',
    value: 0.05,
    unit: 'NH3',
    source:
      'Francis-Floyd R et al., Ammonia in aquatic systems, UF/IFAS extension sheet FA-16 (read in a copy; year not noted)',
    confidence: 'extension',
    aim: false,
    remark: 'Advice for fish farms; fry are more delicate than the fish it speaks of.',
  },
  {
    id: 'extension-deaths',
    name: 'Deaths near',
    value: 2.0,
    unit: 'NH3',
    source:
      'Francis-Floyd R et al., Ammonia in aquatic systems, UF/IFAS extension sheet FA-16 (read in a copy; year not noted)',
    confidence: 'extension',
    aim: false,
    remark: 'Many die below it: no target.',
  },
];

/** A limit's value as mg/L of nitrogen. */
export function limitAsNitrogen(limit: {
  readonly value: number;
  readonly unit: AmmoniaUnit;
}): AmmoniaNitrogen {
  return ammoniaNitrogen(limit.value, limit.unit);
}

export interface NitrogenGuide {
  readonly of: 'nitrite' | 'nitrate';
  /** mg/L in the form the source gives. */
  readonly value: number;
  readonly form: 'N' | 'ion' | 'not stated';
  readonly text: string;
  /** What to do at or above it: common practice, no source. */
  readonly remedy: string;
  readonly source: string;
  readonly confidence: Confidence;
}

const BOYD =
  'Boyd 2014, Nitrite toxicity affected by species susceptibility, environmental conditions, Global Aquaculture Advocate (2 January 2014, no volume)';

/** Figures for nitrite and nitrate to read beside a reading: guides, not limits. */
export const nitrogenGuides: readonly NitrogenGuide[] = [
  {
    of: 'nitrite',
    value: 0.1,
    form: 'not stated',
    text: 'Below 0.1 mg/L is usual where fish are raised. Nitrite keeps the blood from carrying oxygen. Chloride in the water lessens that in many species and not in others; nothing was found for bettas, so do not add salt because of it.',
    remedy: `Change about a quarter of the water with clean, treated water of the same pH and temperature, feed less, and read it again the next day. The filter has too few bacteria yet, or was disturbed: keep fewer fish, or use a filter that has run in a healthy tank, until nitrite reads 0. Do not add salt for it. ${neverAcidCaution}`,
    source: `${BOYD}; no protection in largemouth bass: Tomasso 1986, Comparative toxicity of nitrite to freshwater fishes, Aquatic Toxicology 8:129-137, abstract`,
    confidence: 'extension',
  },
  {
    of: 'nitrate',
    value: 40,
    form: 'ion',
    text: 'Fishkeepers hold fry below 20-40 mg/L as NO3. The amounts that kill half within four days are mostly above 100 mg/L as N.',
    remedy: `Change about a quarter of the water with clean, treated water of the same pH and temperature, and read it again. ${neverAcidCaution}`,
    source: `20-40 mg/L: common practice, no source; amounts that kill: ${BOYD}`,
    confidence: 'practice',
  },
];

/** Molar masses: N 14.007, O 15.999. */
const NITRATE_PER_N = (14.007 + 3 * 15.999) / 14.007;

/** Nitrate as the ion, mg/L, of a figure that a kit prints as nitrogen or as the ion. */
export const nitrateAsIon = (value: number, form: string | null): number =>
  form === 'N' ? value * NITRATE_PER_N : value;

/**
 * The guide that a figure has reached; null for one below it or not measured. Nitrite is compared as printed, since the source
 * of its guide does not state the form; nitrate as the ion.
 */
export function guideReached(
  of: NitrogenGuide['of'],
  value: number | null,
  form: string | null,
): NitrogenGuide | null {
  if (value === null) return null;
  const compared = of === 'nitrate' ? nitrateAsIon(value, form) : value;
  return nitrogenGuides.find((guide) => guide.of === of && compared >= guide.value) ?? null;
}
