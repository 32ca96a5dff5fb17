import type { Locus } from '../locus.js';
import { allele, always, catalogueLocus, COLOUR_SCORING, phenotype } from './catalogue-locus.js';

const HIDDEN_BY_ALBINO = {
  locus: 'al',
  phenotypes: ['albino'],
  why: 'an albino makes no dark pigment in which it could be seen',
} as const;

const cambodian = catalogueLocus({
  id: 'c',
  name: 'Cambodian',
  layer: 'dark pigment',
  alleles: [
    allele('dark-body', 'C', 'dark body'),
    allele('cambodian', 'c', 'cambodian (pale body)'),
  ],
  dominance: 'complete',
  dominanceNote: 'Cambodian is recessive.',
  phenotypes: [phenotype('dark', 'dark body'), phenotype('cambodian', 'cambodian')],
  expression: [always('C/-', 'dark'), always('c/c', 'cambodian')],
  hiddenBy: [HIDDEN_BY_ALBINO],
  interplay: [
    'Takes the dark ground away, so that red pales and steel turns silvery white.',
    'One school project reports cambodian and non-red as duplicate recessives that both hide extended red; it shows no counts, so it is not computed.',
  ],
  notes: ['Eyes stay pigmented: cambodian is not albino. Fins may be coloured.'],
  scoring: COLOUR_SCORING,
  confidence: 'established',
  sources: ['wallbrunn-thesis', 'wallbrunn-1958', 'practice-iridescence', 'thai-student-project'],
  computable: true,
});

const blond = catalogueLocus({
  id: 'b',
  name: 'Blond (bright)',
  layer: 'dark pigment',
  alleles: [allele('full-dark', 'B', 'full dark pigment'), allele('blond', 'b', 'blond (bright)')],
  dominance: 'complete',
  dominanceNote: 'Blond is recessive.',
  phenotypes: [phenotype('full', 'full dark pigment'), phenotype('blond', 'blond, red brighter')],
  expression: [always('B/-', 'full'), always('b/b', 'blond')],
  hiddenBy: [
    { locus: 'c', phenotypes: ['cambodian'], why: 'blond is seen only on a dark body' },
    HIDDEN_BY_ALBINO,
  ],
  notes: [
    'Not an allele of cambodian. Whether the two are linked was not found: test it where a brood allows.',
  ],
  scoring: COLOUR_SCORING,
  confidence: 'established',
  sources: ['wallbrunn-thesis', 'thai-student-project', 'practice-red-yellow'],
  computable: true,
});

const melano = catalogueLocus({
  id: 'm',
  name: 'Melano black',
  layer: 'dark pigment',
  alleles: [allele('ordinary', 'M', 'ordinary black'), allele('melano', 'm', 'melano')],
  dominance: 'complete',
  dominanceNote: 'Melano is recessive; carriers look ordinary.',
  phenotypes: [phenotype('ordinary', 'not melano'), phenotype('melano', 'melano (dense black)')],
  expression: [always('M/-', 'ordinary'), always('m/m', 'melano')],
  hiddenBy: [HIDDEN_BY_ALBINO],
  fertility: [
    { genotype: 'm/m', sex: 'female', effect: 'lays, but the eggs do not hatch' },
    { genotype: 'm/m', sex: 'male', effect: 'fertile' },
  ],
  interplay: ['Iridescence over it spoils the black; steel is the usual ground.'],
  risks: [
    'Eggs of a melano female do not hatch. Breed a melano male to a carrier female (1 in 2 melano).',
  ],
  notes: [
    'Black lace and marble-based blacks are other blacks, and fertile: record which black a fish is.',
    'One page puts the infertility on the male side; every breeder account says the female. No crossing data were seen.',
  ],
  scoring: COLOUR_SCORING,
  confidence: 'practice',
  sources: ['practice-melano', 'compiler'],
  computable: true,
});

const albino = catalogueLocus({
  id: 'al',
  name: 'Albino',
  layer: 'dark pigment',
  alleles: [allele('pigmented', 'Al', 'pigmented'), allele('albino', 'al', 'albino')],
  dominance: 'complete',
  dominanceNote: 'One major locus by mapping; recessive by practice.',
  phenotypes: [phenotype('pigmented', 'pigmented'), phenotype('albino', 'albino (red eye)')],
  expression: [always('Al/-', 'pigmented'), always('al/al', 'albino')],
  interplay: ['Hides cambodian, blond and melano.'],
  risks: ['Poor sight or blindness; weak fish.'],
  notes: ['A regulatory element of mitfa is implicated.'],
  scoring: {
    ...COLOUR_SCORING,
    fromWeeks: null,
    note: 'No age was found; the red eye tells it from cambodian.',
  },
  confidence: 'molecular',
  sources: ['wang-2021', 'compiler'],
  computable: true,
});

export const darkPigmentLoci: readonly Locus[] = [cambodian, blond, melano, albino];
