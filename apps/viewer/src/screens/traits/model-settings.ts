import type { TraitMerit } from '../../api/merit.js';
import { type MeritPart, partWords, type PriorName } from '../../wording/merit-model-words.js';

type Settings = TraitMerit['settings'];

/** The form of a trait's settings: each part set apart or not, traits to correct for by id, and what was taken as likely before. */
export type Ticked = Record<MeritPart, boolean> & {
  prior: PriorName;
  beside: Record<string, boolean>;
};

export const meritParts = Object.keys(partWords) as MeritPart[];

export const tickedIn = ({
  parts,
  prior,
  besideTraitIds,
}: Pick<Settings, 'parts' | 'prior' | 'besideTraitIds'>): Ticked => ({
  beside: Object.fromEntries(besideTraitIds.map((id) => [id, true])),
  ...(Object.fromEntries(meritParts.map((part) => [part, parts.includes(part)])) as Record<
    MeritPart,
    boolean
  >),
  prior,
});

export const isUsual = ({
  parts,
  usualParts,
  prior,
  usualPrior,
  besideTraitIds,
}: Omit<Settings, 'revision'>) =>
  prior === usualPrior &&
  besideTraitIds.length === 0 &&
  parts.length === usualParts.length &&
  parts.every((part) => usualParts.includes(part));

/** What is sent of the form. */
export const settingsSent = (ticked: Ticked) => ({
  prior: ticked.prior,
  ...{ season: ticked.SEASON, age: ticked.AGE, sex: ticked.SEX, brood: ticked.BROOD },
  ...{ linesApart: ticked.LINES_APART, place: ticked.PLACE },
  ...{ looks: ticked.LOOKS, scorer: ticked.SCORER },
  besideTraitIds: Object.keys(ticked.beside).filter((id) => ticked.beside[id] === true),
});
