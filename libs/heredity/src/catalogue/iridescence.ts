import type { Locus } from '../locus.js';
import { allele, always, catalogueLocus, COLOUR_SCORING, phenotype } from './catalogue-locus.js';

const iridescenceColour = catalogueLocus({
  id: 'bl',
  name: 'Iridescence colour',
  layer: 'iridescence',
  alleles: [allele('turquoise', 'Bl', 'turquoise (green)'), allele('steel', 'bl', 'steel blue')],
  notations: [
    {
      id: 'wallbrunn',
      name: 'Wallbrunn',
      symbols: { V: 'steel', v: 'turquoise' },
      note: 'Capitals run the other way: V/V is steel, V/v blue, v/v green.',
    },
    {
      id: 'reversed',
      name: 'Bl and bl exchanged',
      symbols: { Bl: 'steel', bl: 'turquoise' },
      note: 'Some tables in circulation write Bl for steel. Ask which is meant before importing.',
    },
  ],
  dominance: 'incomplete',
  dominanceNote: 'The heterozygote is a colour of its own, royal blue.',
  phenotypes: [
    phenotype('turquoise', 'turquoise (green)'),
    phenotype('royal', 'royal blue'),
    phenotype('steel', 'steel blue'),
  ],
  expression: [always('Bl/Bl', 'turquoise'), always('Bl/bl', 'royal'), always('bl/bl', 'steel')],
  hiddenBy: [
    {
      locus: 'si',
      phenotypes: ['sparse'],
      why: 'with few iridocytes the iridescent colour cannot be classed on the body',
    },
  ],
  interplay: [
    'Over a pale body steel looks silvery white.',
    'Metallic and opaque change what is seen; with metallic in the cross one report of green x steel was not all royal.',
    'Now and then one fish bears two iridescent colours: record it as mixed, not in either class.',
  ],
  scoring: COLOUR_SCORING,
  confidence: 'established',
  sources: [
    'wallbrunn-thesis',
    'wallbrunn-1958',
    'goodrich-mercer-1934',
    'practice-iridescence',
    'thai-student-project',
    'alfred-thesis',
  ],
  computable: true,
});

const spreadIridescence = catalogueLocus({
  id: 'si',
  name: 'Spread iridescence',
  layer: 'iridescence',
  alleles: [
    allele('spread', 'Si', 'spread'),
    allele('limited', 'si', 'limited to rows and rays (wild type)'),
  ],
  notations: [
    {
      id: 'wallbrunn',
      name: 'Wallbrunn',
      symbols: { Ri: 'spread', ri: 'limited' },
      note: 'Ri for many iridocytes, ri for few.',
    },
  ],
  dominance: 'complete',
  dominanceNote: 'Spread is dominant; how dense it is varies by degrees among spread fish.',
  phenotypes: [phenotype('spread', 'spread iridescence'), phenotype('sparse', 'few iridocytes')],
  expression: [always('Si/-', 'spread'), always('si/si', 'sparse')],
  interplay: ['Lies over red and black.'],
  notes: ['Score density within spread fish from 0 to 5.'],
  scoring: COLOUR_SCORING,
  confidence: 'established',
  sources: ['wallbrunn-thesis', 'practice-iridescence'],
  computable: true,
});

const opaque = catalogueLocus({
  id: 'op',
  name: 'Opaque',
  layer: 'iridescence',
  alleles: [allele('opaque', 'Op', 'opaque'), allele('clear', 'op', 'not opaque')],
  dominance: 'dose',
  dominanceNote: 'One dose shows weakly, two doses strongly.',
  phenotypes: [
    phenotype('strong', 'strong chalky layer'),
    phenotype('weak', 'weaker opaque layer'),
    phenotype('none', 'no opaque layer'),
  ],
  expression: [always('Op/Op', 'strong'), always('Op/op', 'weak'), always('op/op', 'none')],
  interplay: [
    'Opaque white is cambodian, non-red, spread, steel and opaque together; blue and green opaques exist.',
    'Pastel means a pale iridescence without opaque to some and one dose of opaque to others.',
  ],
  risks: ['The layer may grow over the eyes; blindness is a listed show disqualifier in opaques.'],
  scoring: COLOUR_SCORING,
  confidence: 'practice',
  sources: ['lucas-1968', 'practice-opaque'],
  computable: true,
});

const metallic = catalogueLocus({
  id: 'mt',
  name: 'Metallic',
  layer: 'iridescence',
  alleles: [allele('metallic', 'Mt', 'metallic'), allele('plain', 'mt', 'not metallic')],
  dominance: 'dose',
  dominanceNote: 'One dose shows partly, two doses fully.',
  phenotypes: [
    phenotype('full', 'full metallic'),
    phenotype('partial', 'partly metallic'),
    phenotype('none', 'not metallic'),
  ],
  expression: [always('Mt/Mt', 'full'), always('Mt/mt', 'partial'), always('mt/mt', 'none')],
  interplay: [
    'With iridescence colour it gives nine classes: full metallic over steel is usually called copper, over royal teal, over turquoise metallic green. Names vary.',
  ],
  risks: ['The heavy scale layer may grow over the eyes (diamond eye).'],
  notes: [
    'Brought in from B. imbellis or B. mahachaiensis by breeders; no counts were seen for the model.',
  ],
  scoring: COLOUR_SCORING,
  confidence: 'practice',
  sources: ['practice-metallic', 'zhang-2022', 'kwon-2022', 'compiler'],
  computable: true,
});

export const iridescenceLoci: readonly Locus[] = [
  iridescenceColour,
  spreadIridescence,
  opaque,
  metallic,
];
