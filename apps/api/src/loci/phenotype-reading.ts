import { HeredityError, type Locus, type Phenotype } from '@linewright/heredity';

const plain = (text: string): string => text.trim().toLowerCase();

/** A phenotype by id or name, whatever its capitals; undefined when the locus has none such. */
export const findPhenotype = (locus: Locus, text: string): Phenotype | undefined =>
  locus.phenotypes.find((one) => one.id === text.trim()) ??
  locus.phenotypes.find((one) => plain(one.name) === plain(text));

/** @throws HeredityError `PHENOTYPE_UNKNOWN`, naming those there are. */
export const readPhenotype = (locus: Locus, text: string): Phenotype => {
  const found = findPhenotype(locus, text);
  if (found !== undefined) return found;
  throw new HeredityError(
    'PHENOTYPE_UNKNOWN',
    `"${text}" is not an appearance at ${locus.name}: give one of ${locus.phenotypes.map((one) => one.name).join(', ')}.`,
    { locus: locus.id, phenotype: text },
  );
};

/** Why a look at this age says nothing yet; null when it counts. An unknown age counts. */
export const tooYoung = (locus: Locus, ageDays: number | null): string | null => {
  const from = locus.scoring.fromWeeks;
  if (from === null || ageDays === null || ageDays >= from * 7) return null;
  return `Seen at ${ageDays} days; ${locus.name.toLowerCase()} is visible from ${Math.round(from * 7)} days on. Look again then.`;
};
