import type { Locus } from '../locus.js';
import { allele, always, catalogueLocus, phenotype, UNKNOWN_SCORING } from './catalogue-locus.js';

const giant = catalogueLocus({
  id: 'gi',
  name: 'Giant',
  layer: 'body',
  alleles: [],
  dominance: 'unknown',
  dominanceNote:
    'One major locus on chromosome 8 by mapping; three pairs of alleles in hobby accounts.',
  phenotypes: [],
  expression: [],
  risks: ['Slow to grow; needs volume.'],
  notes: [
    'Record length at a stated age. The first generation is said to be intermediate (from memory).',
  ],
  scoring: { ...UNKNOWN_SCORING, note: 'A measurement at a stated age, not a class.' },
  confidence: 'disputed',
  sources: ['zhang-2022', 'practice-giant'],
  computable: false,
  whyNot: 'A mapped single locus and the three-pair model of breeders contradict each other.',
});

const sex = catalogueLocus({
  id: 'sx',
  name: 'Sex',
  layer: 'sex',
  alleles: [allele('x', 'X', 'X'), allele('y', 'Y', 'Y (dmrt1)')],
  dominance: 'sex-determining',
  dominanceNote:
    'XX mostly female, XY mostly male; penetrance is incomplete and its size not known.',
  phenotypes: [
    phenotype('female', 'mostly female (XX)'),
    phenotype('male', 'mostly male (XY or YY)'),
  ],
  expression: [always('X/X', 'female'), always('Y/-', 'male')],
  notes: [
    'One to one is expected, but skewed broods are ordinary: a skew is never flagged as an error.',
    'Sex-reversed males gave daughters only in one study and some mixed broods in another; an early account describes broods nearly all of one sex.',
    'dmrt1 is the main gene in ornamental fish, with lower penetrance in wild ones.',
  ],
  scoring: {
    fromWeeks: 6,
    note: 'Six to twelve weeks; short-finned males are taken for females, and an egg spot proves nothing.',
    basis: 'common practice, no source',
  },
  confidence: 'molecular',
  sources: [
    'zhang-2022',
    'kwon-2022',
    'lowe-larkin-1975',
    'kavumpurath-pandian-1994',
    'wallbrunn-thesis',
  ],
  computable: true,
  testable: false,
  whyNotTestable:
    'Skewed broods are ordinary in this species, so a departure from 1:1 shows nothing wrong.',
});

export const bodyLoci: readonly Locus[] = [giant, sex];
