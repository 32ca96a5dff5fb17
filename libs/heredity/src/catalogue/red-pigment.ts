import type { Locus } from '../locus.js';
import { allele, always, catalogueLocus, COLOUR_SCORING, phenotype } from './catalogue-locus.js';

const nonRed = catalogueLocus({
  id: 'nr1',
  name: 'Non-red (yellow)',
  layer: 'red pigment',
  alleles: [allele('red', 'Nr', 'red'), allele('non-red', 'nr1', 'non-red')],
  notations: [
    {
      id: 'plain',
      name: 'Without the number',
      symbols: { Nr: 'red', nr: 'non-red' },
      note: 'nr for nr1.',
    },
  ],
  dominance: 'complete',
  dominanceNote: 'Non-red is recessive.',
  phenotypes: [
    phenotype('red', 'red where red lies'),
    phenotype('yellow', 'yellow where red would lie'),
  ],
  expression: [always('Nr/-', 'red'), always('nr1/nr1', 'yellow')],
  interplay: ['A solid yellow fish needs extended red as well.'],
  notes: [
    'Yellow x yellow should give yellow only, yet one line is reported to have thrown about a quarter yellow and the rest cambodian red: more than one locus, red loss, or misclassing.',
  ],
  scoring: COLOUR_SCORING,
  confidence: 'practice',
  sources: ['lucas-1968', 'thai-student-project', 'practice-red-yellow'],
  computable: true,
});

const orange = catalogueLocus({
  id: 'nr2',
  name: 'Second non-red (orange)',
  layer: 'red pigment',
  alleles: [allele('red', 'Nr2', 'red'), allele('orange', 'nr2', 'orange')],
  dominance: 'unknown',
  dominanceNote: 'Said to be recessive, and separate from the first non-red.',
  phenotypes: [phenotype('orange', 'orange')],
  expression: [],
  scoring: COLOUR_SCORING,
  confidence: 'disputed',
  sources: ['compiler'],
  computable: false,
  whyNot: 'No cross was found that shows a second non-red locus, nor how it is inherited.',
});

const extendedRed = catalogueLocus({
  id: 'er',
  name: 'Extended red',
  layer: 'red pigment',
  alleles: [
    allele('extended', 'Er', 'extended red'),
    allele('fins-only', 'er', 'red of ordinary extent'),
  ],
  dominance: 'complete',
  dominanceNote: 'Extended red is dominant.',
  phenotypes: [
    phenotype('extended', 'red over body and fins'),
    phenotype('fins-only', 'red limited to the fins'),
  ],
  expression: [always('Er/-', 'extended'), always('er/er', 'fins-only')],
  interplay: ['Iridescence covers it, non-red turns it yellow, cambodian pales it.'],
  notes: [
    'An extended-red parent set the colour of the first generation in one cross with B. imbellis (descriptive).',
  ],
  scoring: COLOUR_SCORING,
  confidence: 'practice',
  sources: ['thai-student-project', 'imbellis-cross', 'practice-red-yellow'],
  computable: true,
});

const reducedRed = catalogueLocus({
  id: 'rr',
  name: 'Reduced red',
  layer: 'red pigment',
  alleles: [],
  dominance: 'unknown',
  dominanceNote: 'Not known.',
  phenotypes: [phenotype('reduced', 'reduced red')],
  expression: [],
  interplay: ['Often met with cambodian.'],
  scoring: COLOUR_SCORING,
  confidence: 'disputed',
  sources: ['compiler'],
  computable: false,
  whyNot: 'Neither the number of loci nor the dominance of reduced red is known.',
});

const redLoss = catalogueLocus({
  id: 'rl',
  name: 'Red loss',
  layer: 'red pigment',
  alleles: [allele('red-loss', 'Rl', 'red loss'), allele('stable', 'rl', 'stable red')],
  dominance: 'unknown',
  dominanceNote: 'Said to be dominant or partly dominant.',
  phenotypes: [phenotype('loses-red', 'red when young, lost with age')],
  expression: [],
  interplay: ['Confuses the classing of non-red, cellophane and marble.'],
  scoring: {
    fromWeeks: 26,
    note: 'The look changes with age: score at three and at six months and keep both dates.',
    basis: 'common practice, no source',
  },
  confidence: 'disputed',
  sources: ['practice-red-yellow', 'practice-opaque', 'compiler'],
  computable: false,
  whyNot: 'Accounts differ on its dominance, and a young fish cannot be classed.',
});

export const redPigmentLoci: readonly Locus[] = [nonRed, orange, extendedRed, reducedRed, redLoss];
