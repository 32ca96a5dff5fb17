import type { LocusDefinition } from '@linewright/heredity';
import { toLocus } from '../shapes/heredity.mapper.js';
import type { LocusSettingRow } from '../stock/rows/locus-setting.entity.js';
import type { OwnLocusRow, OwnLocusVersionRow } from '../stock/rows/own-locus.entity.js';
import type {
  DefineLocusInput,
  LocusSettingModel,
  LocusVersionModel,
  OwnAlleleInput,
  OwnLookInput,
} from './own-locus.model.js';
import type { LocusModel } from '../shapes/heredity.model.js';

const wordId = (text: string): string => text.trim().toLowerCase().replace(/\s+/g, ' ');

const toAlleles = (inputs: OwnAlleleInput[]): LocusDefinition['alleles'] =>
  inputs.map(({ symbol, name }) => ({
    id: symbol.trim(),
    symbol: symbol.trim(),
    name: name.trim(),
  }));

/** Lines with the same genotype are the outcomes of one rule: that is reduced penetrance. */
const toLooks = (
  inputs: OwnLookInput[],
): Pick<LocusDefinition, 'phenotypes' | 'expression'> & {
  viability: NonNullable<LocusDefinition['viability']>;
} => {
  const names = new Map(inputs.map((one) => [wordId(one.phenotype), one.phenotype.trim()]));
  const genotypes = [...new Set(inputs.map((one) => one.genotype.trim()))];
  return {
    phenotypes: [...names].map(([id, name]) => ({ id, name })),
    expression: genotypes.map((genotype) => ({
      genotype,
      shows: inputs
        .filter((one) => one.genotype.trim() === genotype)
        .map((one) => ({
          phenotype: wordId(one.phenotype),
          probability: one.share?.trim() || '1',
        })),
    })),
    viability: survivalOf(inputs, genotypes),
  };
};

/**
 * The first rule that fits a genotype counts, of looks as of survival: a line that leaves survival open before one that does
 * not is written out, or the later one would take its fish in too.
 */
const survivalOf = (
  inputs: OwnLookInput[],
  genotypes: string[],
): NonNullable<LocusDefinition['viability']> => {
  const rules = genotypes.map((genotype) => ({
    genotype,
    survival:
      inputs
        .find((one) => one.genotype.trim() === genotype && one.survival?.trim())
        ?.survival?.trim() ?? '1',
    why: 'as recorded with the locus',
  }));
  return rules.slice(0, rules.findLastIndex((one) => one.survival !== '1') + 1);
};

const scoringFrom = (days: number | null): NonNullable<LocusDefinition['scoring']> => ({
  fromWeeks: days === null ? null : days / 7,
  note: days === null ? 'Not stated.' : 'As recorded with the locus.',
  basis: 'the keeper',
});

/** What was given of a definition, in the lib's shape; absent fields stay absent. */
export const toDefinition = (
  input: Partial<Omit<DefineLocusInput, 'id' | 'locusId'>> | Record<string, never>,
): Partial<Omit<LocusDefinition, 'id'>> => {
  const given = input as { [K in keyof DefineLocusInput]?: DefineLocusInput[K] | null };
  return {
    ...(given.name != null && { name: given.name.trim() }),
    ...(given.alleles != null && { alleles: toAlleles(given.alleles) }),
    ...(given.looks != null && toLooks(given.looks)),
    ...(given.scorableFromDays !== undefined && { scoring: scoringFrom(given.scorableFromDays) }),
    ...(given.note !== undefined && { notes: given.note?.trim() ? [given.note.trim()] : [] }),
  };
};

export const toOwnLocus = (row: OwnLocusRow): LocusModel => ({
  ...toLocus(row.definition),
  recordId: row.id,
  revision: row.revision,
});

export const toLocusVersion = (row: OwnLocusVersionRow): LocusVersionModel => ({
  version: row.version,
  at: row.at,
  by: row.byName,
  locus: toLocus(row.definition),
});

export const toLocusSetting = (row: LocusSettingRow): LocusSettingModel => ({
  id: row.id,
  locusId: row.locusId,
  lineId: row.lineId,
  frequencies: Object.entries(row.frequencies ?? {}).map(([alleleId, frequency]) => ({
    alleleId,
    frequency,
  })),
  misScoring: row.misScoring,
  revision: row.revision,
});
