/** What a figure says, how it is made, and where that was published. */
export interface FigureWords {
  name: string;
  meaning: string;
  formula: string;
  source: string;
  /** What the standard error is of, where there is one. */
  error?: string;
}

type FigureName =
  | 'inbreeding'
  | 'maleByFemale'
  | 'meanKinship'
  | 'completeness'
  | 'generationInterval'
  | 'rate'
  | 'founders'
  | 'ancestors'
  | 'genomesByRetention'
  | 'genomesByKinship'
  | 'sizeFromInbreeding'
  | 'sizeFromRate'
  | 'sizeFromSexes'
  | 'sizeFromFamilies';

export const figureWords: Record<FigureName, FigureWords> = {
  inbreeding: {
    name: 'Mean F',
    meaning:
      'The mean inbreeding coefficient of the fish in use: the chance that both copies of a gene in a fish come from one copy in a common ancestor of its parents.',
    formula:
      'F of a fish is the coancestry of its sire and dam over the whole recorded pedigree; here the mean over the fish in use.',
    source:
      'Wright S (1922) American Naturalist 56:330-338; computed after Meuwissen & Luo (1992).',
  },
  maleByFemale: {
    name: 'Mean F of young, males by females',
    meaning:
      'The mean F that young would have if every male in use were paired with every female in use. Fish of unknown sex are not counted.',
    formula:
      'The coancestry of each male with each female is the F of their young; here the mean over all these pairs.',
    source:
      'Malécot G (1948) Les mathématiques de l’hérédité (from memory): F of a fish is the coancestry of its parents.',
  },
  meanKinship: {
    name: 'Mean kinship',
    meaning:
      'How alike the genes of the fish in use are: the mean coancestry of each fish with all of them, with its own sex and with itself. It is not an F of young: no fish mates with itself.',
    formula: 'The sum of all coancestries in the matrix of the fish in use, divided by its cells.',
    source:
      'Ballou JD & Lacy RC (1995) in Population Management for Survival and Recovery (from memory, confirmed by independent computation).',
  },
  completeness: {
    name: 'Full generations on record',
    meaning:
      'How far back the records reach. An ancestor that is not recorded counts as unrelated to all, so F and kinship may be higher than shown, unless it is known to be unrelated.',
    formula:
      'For each fish the sum of (1/2)^n over its known ancestors n generations back; here the mean over the fish in use.',
    source:
      'Maignel L, Boichard D & Verrier E (1996) Interbull Bulletin 14:49-54 (from memory, confirmed by independent computation).',
  },
  generationInterval: {
    name: 'Generation interval',
    meaning:
      'The average age of parents at the hatch of those young that later become parents themselves.',
    formula:
      'The mean age over the paths sire to son, sire to daughter, dam to son and dam to daughter, each path counting the same.',
    source: 'Rendel JM & Robertson A (1950) Journal of Genetics 50:1-8 (from memory).',
  },
  rate: {
    name: 'Rise of F per generation',
    meaning:
      'Each generation loses this share of the variety that can still be lost. An outcross makes it smaller, or negative.',
    formula: '1 - exp(slope), the slope of ln(1 - mean F) on the number of the generation.',
    source:
      'Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, ch. 4 (from memory).',
  },
  founders: {
    name: 'Effective founders',
    meaning:
      'How many founders with equal shares would have brought the same variety at the start. It takes account of unequal shares, but not of what was lost since.',
    formula:
      '1 / sum of p², p being each founder’s expected share of the genes of the fish in use.',
    source: 'Lacy RC (1989) Zoo Biology 8:111-123.',
  },
  ancestors: {
    name: 'Effective ancestors',
    meaning:
      'How many equal ancestors, founders or not, would explain the variety that is left. It takes account of generations with few parents: if one male sired a whole generation, he explains half of all that follows.',
    formula:
      '1 / sum of q², q being what each ancestor explains and none chosen before it; the one that explains most is chosen first.',
    source: 'Boichard D, Maignel L & Verrier E (1997) Genetics Selection Evolution 29:5-23.',
  },
  genomesByRetention: {
    name: 'Founder genome equivalents, by retention',
    meaning:
      'How many founders with equal shares and nothing lost would hold the variety that is left of the founders’ own genes.',
    error:
      'It comes from following the genes down the pedigree 1,000 times by chance, with the same random numbers each time.',
    formula:
      '1 / sum of (p² / r), r being the expected part of a founder’s genes that at least one fish in use still has.',
    source: 'Lacy RC (1989) Zoo Biology 8:111-123.',
  },
  genomesByKinship: {
    name: 'Genome equivalents, by mean kinship',
    meaning:
      'In how many unrelated founders two genes drawn at random would be copies of one gene as rarely as in the fish in use.',
    formula: '1 / (2 × mean kinship), each fish with itself included.',
    source:
      'Ballou JD & Lacy RC (1995) in Population Management for Survival and Recovery (from memory).',
  },
  sizeFromInbreeding: {
    name: 'From each fish’s own rise in F',
    meaning:
      'The size of a stock, mated at random, in which F would have risen as fast as in these fish. It covers the whole recorded pedigree.',
    formula:
      '1 / (2 × mean of 1 - (1 - F)^(1/(t - 1))), t being the full generations on record of each fish in use; fish with t of 1 or less are not counted.',
    error: 'It shows how uneven the fish are, not how right the pedigree is.',
    source:
      'Gutiérrez JP, Cervantes I & Goyache F (2009) Journal of Animal Breeding and Genetics 126:327-332 (from memory, confirmed by independent computation).',
  },
  sizeFromRate: {
    name: 'From the rise of F over the generations',
    meaning: 'The same size, worked out from the mean F of each generation of the line.',
    formula: '1 / (2 × rise of F per generation).',
    source:
      'Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, ch. 4 (from memory).',
  },
  sizeFromSexes: {
    name: 'From the numbers of sires and dams',
    meaning:
      'How many parents the fish in use really have when one sex is scarce. It assumes random mating and families that differ only by chance. Line breeding is neither, so read it as an upper guide.',
    formula: '4 × sires × dams / (sires + dams).',
    source: 'Wright S (1931) Genetics 16:97-159.',
  },
  sizeFromFamilies: {
    name: 'From the spread of family sizes',
    meaning:
      'How many parents the fish in use really have when some leave many young in use and others few. Parents that left none are not counted, so the figure is rather too large than too small.',
    formula:
      '(N k - 1) / (k - 1 + V / k), N being the parents, k their mean number of young in use and V its variance.',
    source: 'Kimura M & Crow JF (1963) Evolution 17:279-288 (from memory).',
  },
};

/** What "in use" covers, said wherever such figures stand. */
export const inUseWords = (includesUnsorted: boolean): string =>
  includesUnsorted
    ? 'Counted as in use: keepers, fish on hold and unsorted fish (not decided on yet).'
    : 'Counted as in use: keepers and fish on hold. Unsorted fish (not decided on yet) are not counted.';

export const sourceText = (tag: string, unknownParent: boolean): string =>
  unknownParent ? `unknown parent of ${tag}` : tag;
