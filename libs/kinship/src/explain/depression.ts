/** Where a figure was seen: carried along so that nobody takes a remembered figure for one read. */
export type Basis = 'read in the abstract' | 'from memory' | 'common practice, no source';

/** One effect of inbreeding measured in fish. */
export interface MeasuredEffect {
  readonly species: string;
  /** F at which it was measured; `null` where a range of levels was studied together. */
  readonly inbreeding: number | null;
  readonly trait: string;
  /** Change against outbred fish in percent, negative for less; a pair of numbers is the range over populations. */
  readonly changePercent: number | readonly [number, number] | null;
  /** In words, for findings without a number and for what the number leaves out. */
  readonly finding: string;
  readonly source: string;
  readonly basis: Basis;
}

const kincaid1976 = {
  species: 'rainbow trout',
  source:
    'Kincaid HL (1976) Effects of inbreeding on rainbow trout populations. Transactions of the American Fisheries Society 105:273-280',
  basis: 'read in the abstract',
} as const;
const kincaid1983 = {
  species: 'rainbow trout',
  inbreeding: null,
  source:
    'Kincaid HL (1983) Inbreeding in fish populations used for aquaculture. Aquaculture 33:215-227',
  basis: 'read in the abstract',
} as const;

function trout1976(inbreeding: 0.25 | 0.375, changes: Record<string, number>): MeasuredEffect[] {
  const matings = inbreeding === 0.25 ? 'one generation' : 'two generations';
  return Object.entries(changes).map(([trait, changePercent]) => ({
    ...kincaid1976,
    inbreeding,
    trait,
    changePercent,
    finding: `After ${matings} of full-sib mating, against outbred half sibs of the same age.`,
  }));
}

/**
 * What inbreeding cost in fish in which it was measured. No such figure exists for *Betta splendens*: see
 * {@link noBettaFigure}. Trout lines are kept and selected otherwise than bettas, so these are orders of magnitude and no
 * forecast for a spawn.
 *
 * Other copies of the 1976 results give larger losses at F = 0.25 for feed conversion, survival and early growth; the abstract's
 * are used here.
 */
export const measuredEffects: readonly MeasuredEffect[] = [
  ...trout1976(0.25, {
    'crippled fry': 37.6,
    'feed conversion': -5.6,
    'fry survival to 147 days': -14.6,
    'growth to 147 days': -6,
    'growth to 364 days': -23.2,
    'number of fish left at 1 year': -17.4,
    'weight of fish left at 1 year': -36.6,
  }),
  ...trout1976(0.375, {
    'crippled fry': 191.5,
    'feed conversion': -14.9,
    'fry survival to 147 days': -29.7,
    'growth to 147 days': -13.4,
    'growth to 364 days': -33.5,
    'number of fish left at 1 year': -47.9,
    'weight of fish left at 1 year': -65.4,
  }),
  {
    ...kincaid1976,
    inbreeding: 0.25,
    trait: 'hatch of eggs',
    changePercent: null,
    finding: 'No effect seen in the fall-spawning fish.',
  },
  ...(
    [
      ['hatch of eggs', [-53.1, 0.2]],
      ['fry survival', [-8.2, -0.4]],
      ['feed conversion', [-9, -5]],
      ['weight at 147 days', [-19.1, 0]],
      ['weight at 364 days', [-62.8, -6.2]],
      ['egg mass at 2 years', [-57, -12.1]],
    ] as const
  ).map(([trait, changePercent]) => ({
    ...kincaid1983,
    trait,
    changePercent,
    finding:
      'Range over populations and levels of inbreeding: the same F cost one line little and another much.',
  })),
  {
    species: 'zebrafish',
    inbreeding: 0.25,
    trait: 'fertile eggs, early survival, length',
    changePercent: null,
    finding:
      'At F of 0.125 and 0.25 fewer eggs were fertile, fewer fry lived to 30 days, they were shorter and more were crippled; number of eggs and hatch did not change.',
    source:
      'Mrakovcic M & Haley LE (1979) Inbreeding depression in the zebra fish Brachydanio rerio (Hamilton Buchanan). Journal of Fish Biology 15:323-327',
    basis: 'read in the abstract',
  },
  {
    species: 'zebrafish',
    inbreeding: null,
    trait: 'crosses between lines',
    changePercent: null,
    finding:
      'Inbred lines mated less often and laid smaller clutches than females of crossed lines; but crosses between distant lines could do worse too.',
    source:
      'Monson CA & Sadler KC (2010) Inbreeding depression and outbreeding depression are evident in wild-type zebrafish lines. Zebrafish 7:189-197',
    basis: 'read in the abstract',
  },
];

/** To stand wherever the figures above stand. */
export const noBettaFigure =
  'Nobody has published how much inbreeding costs in bettas. The figures are from other fish; your own counts of hatch, ' +
  'crippled fry and fish raised, spawn by spawn, are the better guide.';

/** To stand wherever an outcross is suggested. */
export const outcrossIsATrial =
  'An outcross is a trial too. It usually brings vigour back, but it also breaks up what the line was selected for, can bring in ' +
  'faults that show only in the second generation, and now and then two good lines do worse together than apart. Keep some ' +
  'of the line as it was until you have seen the young.';

/** A stretch of the scale of F, named by the mating of otherwise unrelated fish that gives as much. */
export interface InbreedingBand {
  /** Lowest F of the band; it reaches to the next band. */
  readonly from: number;
  readonly name: string;
  readonly meaning: string;
}

/**
 * Bands for showing F. Guides only, of our own making: the borders are those of well-known matings (first cousins 1/16, half
 * sibs 1/8, full sibs 1/4, two generations of full sibs 3/8), not steps in any measured harm. A handbook for food fish advises to stay
 * under 0.05 to 0.10 (Tave D 1999, Inbreeding and brood stock management, FAO Fisheries Technical Paper 392; figure from memory); a line bred for show passes that with
 * one sib mating, so there is no bar here to be over or under.
 */
export const inbreedingBands: readonly InbreedingBand[] = [
  {
    from: 0,
    name: 'none on record',
    meaning:
      'The parents share no ancestor in these records. Unknown ancestors may still be shared.',
  },
  {
    from: Number.MIN_VALUE,
    name: 'distant',
    meaning: 'Less than the young of first cousins.',
  },
  { from: 1 / 16, name: 'cousins', meaning: 'As the young of first cousins, or more.' },
  { from: 1 / 8, name: 'half sibs', meaning: 'As the young of half sibs, or more.' },
  {
    from: 1 / 4,
    name: 'full sibs',
    meaning: 'As the young of full sibs, or of parent and young, or more.',
  },
  {
    from: 3 / 8,
    name: 'two generations of full sibs',
    meaning:
      'As after two full-sib matings in a row, or more. Usual in long-bred lines; count and compare the spawns.',
  },
];

/**
 * The band an inbreeding coefficient falls in.
 *
 * @param inbreeding F, 0 to 1. A hair below a border, as rounding leaves it, counts as on it.
 * @example inbreedingBand(0.25).name; // 'full sibs'
 */
export function inbreedingBand(inbreeding: number): InbreedingBand {
  const value = inbreeding > 0 ? inbreeding * (1 + 1e-12) : 0;
  return inbreedingBands.findLast((band) => band.from <= value) ?? inbreedingBands[0]!;
}
