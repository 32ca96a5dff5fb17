import type { Locus } from '../locus.js';
import {
  allele,
  always,
  catalogueLocus,
  COLOUR_SCORING,
  phenotype,
  UNKNOWN_SCORING,
} from './catalogue-locus.js';

const variegatedFins = catalogueLocus({
  id: 'vf',
  name: 'Variegated fins (butterfly)',
  layer: 'pattern',
  alleles: [allele('variegated', 'Vf', 'variegated'), allele('plain', 'vf', 'plain')],
  dominance: 'variable',
  dominanceNote: 'Variegated is dominant, but how far it shows varies.',
  phenotypes: [
    phenotype('variegated', 'banded fins (extent varies)'),
    phenotype('plain', 'fins not banded'),
  ],
  expression: [always('Vf/-', 'variegated'), always('vf/vf', 'plain')],
  interplay: ['Marble may imitate it.'],
  notes: [
    'Only presence is predicted. Where the band falls looks polygenic: a clean half-and-half band is never promised.',
    'A fin spot has been mapped to one locus; whether it has to do with this one is unknown.',
  ],
  scoring: COLOUR_SCORING,
  confidence: 'practice',
  sources: ['practice-iridescence', 'compiler'],
  computable: true,
  testable: false,
  whyNotTestable: 'Expression varies and marble imitates it, so counts do not test the ratio.',
});

const marble = catalogueLocus({
  id: 'mb',
  name: 'Marble',
  layer: 'pattern',
  alleles: [allele('marble', 'Mb', 'marble'), allele('stable', 'mb', 'not marble')],
  dominance: 'variable',
  dominanceNote: 'Said to be dominant, and unstable.',
  phenotypes: [phenotype('marble', 'shifting patches'), phenotype('stable', 'no marbling')],
  expression: [],
  interplay: ['Can hide or imitate melano, cellophane, butterfly and red loss.'],
  notes: [
    'A mobile element is one hypothesis, an immune mechanism a rival one; neither has been shown.',
    'Where marble is in the line, colour counts are not held against a ratio.',
  ],
  scoring: { ...UNKNOWN_SCORING, note: 'Patches may move for life: no age settles it.' },
  confidence: 'disputed',
  sources: ['practice-marble', 'compiler'],
  computable: false,
  whyNot:
    'Marble is unstable through life and its mechanism is unproven, so no ratio can be promised.',
});

const finSpot = catalogueLocus({
  id: 'fs',
  name: 'Fin spot',
  layer: 'pattern',
  alleles: [],
  dominance: 'unknown',
  dominanceNote: 'One major locus by mapping; dominance not given.',
  phenotypes: [phenotype('spot', 'fin spot')],
  expression: [],
  scoring: UNKNOWN_SCORING,
  confidence: 'molecular',
  sources: ['wang-2021'],
  computable: false,
  whyNot: 'Mapped to one major locus, but the dominance was not found.',
});

export const patternLoci: readonly Locus[] = [variegatedFins, marble, finSpot];
