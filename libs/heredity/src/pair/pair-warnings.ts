import { findLocus } from '../catalogue/catalogue.js';
import { sources } from '../catalogue/sources.js';
import type { Confidence, LocusId } from '../locus.js';
import { hasGenotype, showsTrait, type PairMember, type WarningTrait } from './pair-member.js';

export type PairWarningCode =
  | 'MELANO_DAM_EGGS_DO_NOT_HATCH'
  | 'MELANO_DAM_POSSIBLE'
  | 'MELANO_DAUGHTERS'
  | 'DOUBLE_TAIL_PAIR'
  | 'DOUBLE_TAIL_CARRIERS'
  | 'ROSETAIL_PAIR'
  | 'ROSETAIL_PARENT'
  | 'MARBLE_UNPREDICTABLE'
  | 'OPAQUE_EYES'
  | 'METALLIC_EYES'
  | 'ALBINO_SIGHT'
  | 'DUMBO_SWIMMING'
  | 'GIANT_SPACE'
  | 'CROWNTAIL_RAYS'
  | 'RED_LOSS_RESCORE'
  | 'BUTTERFLY_EXTENT';

/** `stop`: the pair cannot give what is wanted; `caution`: a likely harm; `note`: good to know. */
export type PairWarningSeverity = 'stop' | 'caution' | 'note';

export interface PairWarning {
  readonly code: PairWarningCode;
  readonly severity: PairWarningSeverity;
  readonly title: string;
  readonly text: string;
  readonly loci: readonly LocusId[];
  readonly confidence: Confidence;
  /** How the knowledge was come by, of the best source. */
  readonly basis: string;
  /** Ids in `sources`. */
  readonly sources: readonly string[];
}

interface Finding {
  readonly code: PairWarningCode;
  readonly severity: PairWarningSeverity;
  readonly title: string;
  readonly text: string;
  readonly locus: LocusId;
  /** The warning may rest on less than the locus does: a mapped gene does not make its drawback measured. */
  readonly confidence?: Confidence;
  readonly sources?: readonly string[];
}

function melano(sire: PairMember, dam: PairMember): Finding[] {
  const findings: Finding[] = [];
  const damIs = showsTrait(dam, 'melano', 'm', 'm/m');
  if (damIs === 'yes') {
    findings.push({
      code: 'MELANO_DAM_EGGS_DO_NOT_HATCH',
      severity: 'stop',
      title: 'Melano dam',
      text: 'She is melano (m/m): such females lay, but the eggs do not hatch. Pair a melano male with a carrier female instead; half the young are then melano. A fertile black is another black: correct her record if so.',
      locus: 'm',
    });
  } else if (damIs === 'possible') {
    findings.push({
      code: 'MELANO_DAM_POSSIBLE',
      severity: 'caution',
      title: 'Dam may be melano',
      text: 'Her genotype leaves m/m open. If she is melano her eggs will not hatch.',
      locus: 'm',
    });
  }
  const carries = (member: PairMember) =>
    showsTrait(member, 'melano') === 'yes' || hasGenotype(member, 'm', 'm/-') === 'yes';
  if (damIs !== 'yes' && carries(sire) && carries(dam)) {
    findings.push({
      code: 'MELANO_DAUGHTERS',
      severity: 'note',
      title: 'Melano daughters',
      text: 'Some young will be melano (m/m), also where another locus such as albino hides it. Keep melano males and carrier females for breeding: melano daughters will not give fry.',
      locus: 'm',
    });
  }
  return findings;
}

function doubleTail(sire: PairMember, dam: PairMember): Finding[] {
  const both = [sire, dam].map((one) => showsTrait(one, 'double-tail', 'dt', 'dt/dt'));
  const practice = { confidence: 'practice', sources: ['practice-double-tail'] } as const;
  if (both.every((answer) => answer === 'yes')) {
    return [
      {
        code: 'DOUBLE_TAIL_PAIR',
        severity: 'caution',
        title: 'Double tail to double tail',
        text: 'All young will be double tails, and fused lobes, bent spines and short or misshapen bodies come more often. A single-tailed carrier as one parent is the usual way.',
        locus: 'dt',
        ...practice,
      },
    ];
  }
  if (!both.includes('yes')) return [];
  return [
    {
      code: 'DOUBLE_TAIL_CARRIERS',
      severity: 'note',
      title: 'Double-tail carriers',
      text: 'One parent is a double tail, so every young fish gets at least one double-tail allele: all the single tails are carriers. From two single-tailed carriers only two in three of the single tails are.',
      locus: 'dt',
    },
  ];
}

function rosetail(sire: PairMember, dam: PairMember): Finding[] {
  const count = [sire, dam].filter((one) => showsTrait(one, 'rosetail') === 'yes').length;
  if (count === 2) {
    return [
      {
        code: 'ROSETAIL_PAIR',
        severity: 'caution',
        title: 'Rosetail to rosetail',
        text: 'The faults that come with extreme branching add up: small dorsal and ventrals, scale faults, slow growth, poor swimming, tail biting. Pair with a fish of sound fins.',
        locus: 'rt',
      },
    ];
  }
  return count === 1
    ? [
        {
          code: 'ROSETAIL_PARENT',
          severity: 'note',
          title: 'Rosetail parent',
          text: 'Rosetail runs in lines, how is not known: check the brood for small fins and scale faults.',
          locus: 'rt',
        },
      ]
    : [];
}

interface SimpleRule {
  readonly code: PairWarningCode;
  readonly trait: WarningTrait;
  readonly locus: LocusId;
  readonly pattern: string | null;
  readonly title: string;
  readonly one: string;
  /** Said, as a caution, when both parents have it. */
  readonly two?: string;
  readonly severity: PairWarningSeverity;
}

const SIMPLE_RULES: readonly SimpleRule[] = [
  {
    code: 'MARBLE_UNPREDICTABLE',
    trait: 'marble',
    locus: 'mb',
    pattern: 'Mb/-',
    title: 'Marble: colours unpredictable',
    severity: 'caution',
    one: 'Marble young may change for life and can pass for melano, cellophane, butterfly or red loss. Do not rely on expected colour classes, and colour counts should not be tested against a ratio.',
  },
  {
    code: 'OPAQUE_EYES',
    trait: 'opaque',
    locus: 'op',
    pattern: 'Op/-',
    title: 'Opaque: eyes',
    severity: 'note',
    one: 'The opaque layer may grow over the eyes; look at the eyes of young with two doses.',
    two: 'Both parents are opaque: a quarter or more of the young may have two doses, in which the layer may grow over the eyes and blind the fish.',
  },
  {
    code: 'METALLIC_EYES',
    trait: 'metallic',
    locus: 'mt',
    pattern: 'Mt/-',
    title: 'Metallic: eyes',
    severity: 'note',
    one: 'Heavy metallic scaling may grow over the eyes (diamond eye).',
    two: 'Both parents are metallic: a quarter or more of the young may be fully so, and heavy scaling may grow over the eyes (diamond eye).',
  },
  {
    code: 'DUMBO_SWIMMING',
    trait: 'dumbo',
    locus: 'db',
    pattern: 'db/db',
    title: 'Dumbo: swimming',
    severity: 'note',
    one: 'Large pectorals make swimming harder; shallow, calm water helps. How dumbo is inherited is disputed, so no share of the brood is given.',
  },
  {
    code: 'GIANT_SPACE',
    trait: 'giant',
    locus: 'gi',
    pattern: null,
    title: 'Giant: space and time',
    severity: 'note',
    one: 'Giants grow slowly and need volume. How size is inherited is disputed, so it is not predicted.',
  },
  {
    code: 'CROWNTAIL_RAYS',
    trait: 'crowntail',
    locus: 'ct',
    pattern: 'Ct/-',
    title: 'Crowntail: rays',
    severity: 'note',
    one: 'Rays may curl with age or in hard water. Sources disagree on how crowntail is inherited, so it is not predicted.',
  },
  {
    code: 'RED_LOSS_RESCORE',
    trait: 'red-loss',
    locus: 'rl',
    pattern: 'Rl/-',
    title: 'Red loss: score twice',
    severity: 'note',
    one: 'Red may fade with age and then pass for non-red or marble: score the young at three and at six months.',
  },
  {
    code: 'BUTTERFLY_EXTENT',
    trait: 'butterfly',
    locus: 'vf',
    pattern: 'Vf/-',
    title: 'Butterfly: band varies',
    severity: 'note',
    one: 'Banded fins can be expected, but where the band falls cannot.',
  },
];

function simple(rule: SimpleRule, sire: PairMember, dam: PairMember): Finding[] {
  const count = [sire, dam].filter(
    (one) => showsTrait(one, rule.trait, rule.locus, rule.pattern ?? undefined) === 'yes',
  ).length;
  if (count === 0) return [];
  const both = count === 2 && rule.two !== undefined;
  return [
    {
      code: rule.code,
      severity: both ? 'caution' : rule.severity,
      title: rule.title,
      text: both ? (rule.two ?? rule.one) : rule.one,
      locus: rule.locus,
      ...(rule.locus === 'db' ? { confidence: 'disputed' as const } : {}),
    },
  ];
}

function albino(sire: PairMember, dam: PairMember): Finding[] {
  const carries = (one: PairMember) =>
    showsTrait(one, 'albino') === 'yes' || hasGenotype(one, 'al', 'al/-') === 'yes';
  const shown = [sire, dam].some((one) => showsTrait(one, 'albino', 'al', 'al/al') === 'yes');
  if (!shown && !(carries(sire) && carries(dam))) return [];
  return [
    {
      code: 'ALBINO_SIGHT',
      severity: 'caution',
      title: 'Albino: sight',
      text: shown
        ? 'A parent is albino: albinos see poorly or not at all and are weak. Keep such a parent in dim light, and watch whether it finds its mate and its food.'
        : 'Both parents carry albino: a quarter or more of the young may be albino, poor of sight and weak.',
      locus: 'al',
      confidence: 'practice',
      sources: ['compiler'],
    },
  ];
}

const SEVERITY_ORDER: Readonly<Record<PairWarningSeverity, number>> = {
  stop: 0,
  caution: 1,
  note: 2,
};

const BASIS_ORDER = [
  'read in the source',
  'citation only, from memory',
  'common practice, no source',
  'from memory',
];

function toWarning(finding: Finding): PairWarning {
  const locus = findLocus(finding.locus);
  const cited = finding.sources ?? locus.sources;
  const bases = sources.filter((one) => cited.includes(one.id)).map((one) => one.basis);
  return {
    code: finding.code,
    severity: finding.severity,
    title: finding.title,
    text: finding.text,
    loci: [finding.locus],
    confidence: finding.confidence ?? locus.confidence,
    basis:
      bases.sort((a, b) => BASIS_ORDER.indexOf(a) - BASIS_ORDER.indexOf(b))[0] ?? 'from memory',
    sources: cited,
  };
}

/**
 * What to be warned of before putting two fish together, most serious first.
 *
 * Each warning says how sure the knowledge is and what it rests on. A warning that needs a genotype is given when the
 * genotype is certain or the trait is seen; only the melano dam, whose whole spawn is lost, is also warned of when merely
 * possible. Skewed sex ratios are ordinary and are not warned of.
 *
 * @throws HeredityError `ALLELE_UNKNOWN`, `GENOTYPE_INVALID` for a genotype that cannot be read at a locus looked at.
 * @example pairWarnings({ genotypes: {} }, { genotypes: { m: 'm/m' } })[0].code // 'MELANO_DAM_EGGS_DO_NOT_HATCH'
 */
export function pairWarnings(sire: PairMember, dam: PairMember): PairWarning[] {
  return [
    ...melano(sire, dam),
    ...doubleTail(sire, dam),
    ...rosetail(sire, dam),
    ...albino(sire, dam),
    ...SIMPLE_RULES.flatMap((rule) => simple(rule, sire, dam)),
  ]
    .map(toWarning)
    .sort((a, b) => SEVERITY_ORDER[a.severity] - SEVERITY_ORDER[b.severity]);
}
