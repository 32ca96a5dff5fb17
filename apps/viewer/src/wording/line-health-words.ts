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
      'The mean F that young would have if every male in use were paired with every female in use. Fish of unknown sex are left out.',
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
      'How far back the records reach. An ancestor that is not recorded counts as unrelated to all, so every F and kinship here is a lowest value.',
    formula:
      'For each fish the sum of (1/2)^n over its known ancestors n generations back; here the mean over the fish in use.',
    source:
      'Maignel L, Boichard D & Verrier E (1996) Interbull Bulletin 14:49-54 (from memory, confirmed by independent computation).',
  },
  generationInterval: {
    name: 'Generation interval',
    meaning:
      'How old parents are, on average, when those of their young hatch that are bred from in turn.',
    formula:
      'The mean age over the paths sire to son, sire to daughter, dam to son and dam to daughter, each path counting the same.',
    source: 'Rendel JM & Robertson A (1950) Journal of Genetics 50:1-8 (from memory).',
  },
  rate: {
    name: 'Rise of F a generation',
    meaning:
      'The share of what could still be lost that is lost with each generation. An outcross makes it smaller, or negative.',
    formula: '1 - exp(slope), the slope of ln(1 - mean F) on the number of the generation.',
    source:
      'Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, ch. 4 (from memory).',
  },
  founders: {
    name: 'Effective founders',
    meaning:
      'How many founders with equal parts would have brought the same variety at the start. It sees unequal parts, but not what was lost since.',
    formula:
      '1 / sum of p², p being each founder’s expected share of the genes of the fish in use.',
    source: 'Lacy RC (1989) Zoo Biology 8:111-123.',
  },
  ancestors: {
    name: 'Effective ancestors',
    meaning:
      'How many equal ancestors, founders or not, would explain the variety left. It sees the narrow places since the founders: a single sire of a generation explains half of all that follows.',
    formula:
      '1 / sum of q², q being what each ancestor explains and none chosen before it; the one that explains most is chosen first.',
    source: 'Boichard D, Maignel L & Verrier E (1997) Genetics Selection Evolution 29:5-23.',
  },
  genomesByRetention: {
    name: 'Founder genome equivalents, by retention',
    meaning:
      'How many founders with equal parts and nothing lost would hold the variety that is left of the founders’ own genes.',
    error: 'It comes from dropping genes down the pedigree 1,000 times, the same coins each time.',
    formula:
      '1 / sum of (p² / r), r being the expected part of a founder’s genes that at least one fish in use still has.',
    source: 'Lacy RC (1989) Zoo Biology 8:111-123.',
  },
  genomesByKinship: {
    name: 'Genome equivalents, by mean kinship',
    meaning:
      'Among how many unrelated founders two genes drawn at random would be as seldom copies of one as among the fish in use.',
    formula: '1 / (2 × mean kinship), each fish with itself included.',
    source:
      'Ballou JD & Lacy RC (1995) in Population Management for Survival and Recovery (from memory).',
  },
  sizeFromInbreeding: {
    name: 'From each fish’s own rise in F',
    meaning:
      'The size of a stock mated at random in which F would have risen as fast as it did in these fish. It looks back over the whole recorded pedigree.',
    formula:
      '1 / (2 × mean of 1 - (1 - F)^(1/(t - 1))), t being the full generations on record of each fish in use; fish with t of 1 or less are left out.',
    error: 'It shows how uneven the fish are, not how right the pedigree is.',
    source:
      'Gutiérrez JP, Cervantes I & Goyache F (2009) Journal of Animal Breeding and Genetics 126:327-332 (from memory, confirmed by independent computation).',
  },
  sizeFromRate: {
    name: 'From the rise of F over the generations',
    meaning: 'The same question, asked of the means of the line’s generations.',
    formula: '1 / (2 × rise of F a generation).',
    source:
      'Falconer DS & Mackay TFC (1996) Introduction to Quantitative Genetics, ch. 4 (from memory).',
  },
  sizeFromSexes: {
    name: 'From the numbers of sires and dams',
    meaning:
      'What the parents of the fish in use amount to when one sex is scarce. It takes random mating and families that differ by chance alone for granted, which line breeding is not: an upper guide.',
    formula: '4 × sires × dams / (sires + dams).',
    source: 'Wright S (1931) Genetics 16:97-159.',
  },
  sizeFromFamilies: {
    name: 'From the spread of family sizes',
    meaning:
      'What the parents of the fish in use amount to when some leave many young in use and others few. Parents that left none are not seen, so it errs on the large side.',
    formula:
      '(N k - 1) / (k - 1 + V / k), N being the parents, k their mean number of young in use and V its variance.',
    source: 'Kimura M & Crow JF (1963) Evolution 17:279-288 (from memory).',
  },
};

/** What "in use" covers, said wherever such figures stand. */
export const inUseWords = (includesUnsorted: boolean): string =>
  includesUnsorted
    ? 'Counted as in use: keepers, fish on hold and the unsorted, not decided on yet.'
    : 'Counted as in use: keepers and fish on hold. The unsorted, not decided on yet, are left out.';

export const sourceText = (tag: string, unknownParent: boolean): string =>
  unknownParent ? `unknown parent of ${tag}` : tag;
