import type { Locus } from '../locus.js';
import {
  allele,
  always,
  catalogueLocus,
  FIN_SCORING,
  phenotype,
  UNKNOWN_SCORING,
} from './catalogue-locus.js';

const finLength = catalogueLocus({
  id: 'lf',
  name: 'Fin length (long or plakat)',
  layer: 'fins',
  alleles: [allele('long', 'Lf', 'long fin'), allele('short', 'lf', 'short fin')],
  dominance: 'complete',
  dominanceNote: 'Long is said to be dominant; a carrier of short may be intermediate.',
  phenotypes: [
    phenotype('long', 'long fins (carriers sometimes intermediate)'),
    phenotype('short', 'short fins (plakat)'),
  ],
  expression: [always('Lf/-', 'long'), always('lf/lf', 'short')],
  interplay: ['Tail shape is inherited apart from length.'],
  notes: ['The locus holds kcnj15 (molecular); the dominance is breeders practice.'],
  scoring: FIN_SCORING,
  confidence: 'molecular',
  sources: ['zhang-2022', 'compiler'],
  computable: true,
});

const doubleTail = catalogueLocus({
  id: 'dt',
  name: 'Double tail',
  layer: 'fins',
  alleles: [allele('single', 'Dt', 'single tail'), allele('double', 'dt', 'double tail')],
  dominance: 'complete',
  dominanceNote: 'Double tail is recessive; carriers often have a wider dorsal.',
  phenotypes: [phenotype('single', 'single tail'), phenotype('double', 'double tail')],
  expression: [always('Dt/-', 'single'), always('dt/dt', 'double')],
  risks: [
    'Double tail x double tail: fused lobes, bent spines and short or misshapen bodies come more often.',
  ],
  notes: [
    'A double tail has two lobes, a dorsal about as wide as the anal, and a shorter body.',
    'A double-tail parent makes every single-tailed young a carrier; the often-met figure of three in four is wrong.',
    'A deletion in an enhancer shared by zic1 and zic4 is the suggested cause, so the wide dorsal is the same gene at work.',
    'The number of dorsal rays runs from 8 to 18 and depends on more than this locus: a ray count alone proves nothing.',
    'Modifiers set how deep the split goes.',
  ],
  scoring: FIN_SCORING,
  confidence: 'molecular',
  sources: ['wang-2021', 'practice-double-tail', 'wallbrunn-thesis'],
  computable: true,
});

const crowntail = catalogueLocus({
  id: 'ct',
  name: 'Crowntail',
  layer: 'fins',
  alleles: [allele('crown', 'Ct', 'crown'), allele('full-web', 'ct', 'full web')],
  dominance: 'unknown',
  dominanceNote: 'Called dominant, recessive and intermediate by different sources.',
  phenotypes: [
    phenotype('crowntail', 'crowntail'),
    phenotype('combtail', 'combtail'),
    phenotype('full-web', 'full web'),
  ],
  expression: [],
  interplay: ['Modifiers set how far the web is reduced and how many rays there are.'],
  risks: ['Rays may curl with age or in hard water (practice).'],
  notes: ['Score the reduction of the web in per cent; below about a third it is a combtail.'],
  scoring: FIN_SCORING,
  confidence: 'disputed',
  sources: ['practice-crowntail', 'kwon-2022', 'compiler'],
  computable: false,
  whyNot: 'Sources contradict one another on its dominance, and modifiers blur the classes.',
});

const halfmoon = catalogueLocus({
  id: 'hm',
  name: 'Halfmoon spread',
  layer: 'fins',
  alleles: [],
  dominance: 'polygenic',
  dominanceNote: 'Many genes: ray branching, ray number and straightness of the edges.',
  phenotypes: [],
  expression: [],
  risks: ['Selecting for branching brings rosetail faults along.'],
  notes: [
    'Record the spread in degrees. Many halfmoons come from parents of lesser spread.',
    'A cross of B. imbellis with halfmoon gave lesser spread and no halfmoon in its first generation.',
  ],
  scoring: {
    ...FIN_SCORING,
    fromWeeks: 16,
    note: 'Measure the spread flaring, at sixteen to twenty-four weeks.',
  },
  confidence: 'practice',
  sources: ['practice-halfmoon', 'imbellis-cross'],
  computable: false,
  whyNot: 'Polygenic: a measurement to be selected on, not a class to be predicted.',
});

const rosetail = catalogueLocus({
  id: 'rt',
  name: 'Rosetail (feathertail)',
  layer: 'fins',
  alleles: [],
  dominance: 'unknown',
  dominanceNote: 'Heritable; how is not known.',
  phenotypes: [phenotype('rosetail', 'rosetail')],
  expression: [],
  risks: ['Small dorsal and ventrals, faults of scales, slow growth, poor swimming, tail biting.'],
  notes: [
    'One breeder saw about half rosetails from ordinary parents; the number of young was not given.',
  ],
  scoring: FIN_SCORING,
  confidence: 'practice',
  sources: ['practice-halfmoon'],
  computable: false,
  whyNot: 'It runs in lines, but neither the number of loci nor the dominance is known.',
});

const dumbo = catalogueLocus({
  id: 'db',
  name: 'Dumbo (elephant ear)',
  layer: 'fins',
  alleles: [allele('ordinary', 'Db', 'ordinary pectorals'), allele('dumbo', 'db', 'dumbo')],
  dominance: 'unknown',
  dominanceNote:
    'One locus of major effect; handled as recessive or partly recessive, but disputed.',
  phenotypes: [phenotype('dumbo', 'large pectorals'), phenotype('ordinary', 'ordinary pectorals')],
  expression: [],
  risks: ['Large pectorals make swimming harder.'],
  notes: ['Altered expression of kcnh8 is the likely basis.'],
  scoring: UNKNOWN_SCORING,
  confidence: 'molecular',
  sources: ['wang-2021', 'zhang-2022'],
  computable: false,
  whyNot: 'Mapped to one major locus, but its dominance is disputed.',
});

export const finLoci: readonly Locus[] = [
  finLength,
  doubleTail,
  crowntail,
  halfmoon,
  rosetail,
  dumbo,
];
