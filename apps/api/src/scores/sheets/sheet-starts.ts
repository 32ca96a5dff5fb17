import type { TraitKind } from '../../graphql/enums.js';
import type { TraitGrade } from '../../stock/rows/score.entity.js';
import type { FaultSeverity } from '../../stock/rows/sheet-content.js';

/** A trait that a beginning offers; one of the person's own with the same key is used as it is. */
export interface StartTrait {
  readonly key: string;
  readonly name: string;
  readonly kind: TraitKind;
  readonly unit: string | null;
  readonly minimum: number | null;
  readonly maximum: number | null;
  readonly higherIsBetter: boolean | null;
  readonly description: string;
  readonly grades: readonly TraitGrade[];
}

export interface SheetStart {
  readonly key: string;
  readonly name: string;
  readonly description: string;
  readonly fromAgeDays: number;
  readonly toAgeDays: number;
  readonly traits: readonly StartTrait[];
  readonly faults: readonly { readonly name: string; readonly severity: FaultSeverity }[];
}

const trait = (
  key: string,
  name: string,
  description: string,
  more: Partial<StartTrait> = {},
): StartTrait => ({
  key,
  name,
  kind: 'ordinal',
  unit: null,
  minimum: 0,
  maximum: 5,
  higherIsBetter: true,
  description,
  grades: [],
  ...more,
});
const yesNo = { kind: 'yes_no', minimum: 0, maximum: 1 } as const;
const measured = (unit: string, minimum: number, maximum: number, better: boolean | null) =>
  ({ kind: 'measured', unit, minimum, maximum, higherIsBetter: better }) as const;

/**
 * Beginnings for sheets, in the trade's words: what is commonly looked at, at which age, and which faults are named. They
 * are common practice; the classes of faults are those of the trade's published show standards (from memory), and which fault
 * stands in which is a first guess to be changed. Weights, levels and points are left open for the person to set.
 */
export const sheetStarts: readonly SheetStart[] = [
  {
    key: 'structure',
    name: 'Structure at 4 to 6 weeks',
    description: 'The first look at each young fish: what is bent or missing does not grow right.',
    fromAgeDays: 28,
    toAgeDays: 42,
    traits: [
      trait(
        'straight_spine',
        'Straight spine',
        '1: no bend or hump from the side or above.',
        yesNo,
      ),
      trait('ventral_condition', 'Ventral condition', '5: both long, straight and alike.'),
      trait('gill_covers', 'Gill covers', '1: both closed and lying flat.', yesNo),
    ],
    faults: [
      { name: 'Bent spine or hump', severity: 'severe' },
      { name: 'Short, stubby or crossed ventrals', severity: 'major' },
      { name: 'Gill cover open or folded', severity: 'major' },
      { name: 'Blind in an eye', severity: 'disqualifying' },
    ],
  },
  {
    key: 'fins',
    name: 'Fins at 8 to 12 weeks',
    description: 'Width of the dorsal, branching of the tail rays, spread at rest.',
    fromAgeDays: 56,
    toAgeDays: 84,
    traits: [
      trait(
        'dorsal_width',
        'Dorsal width',
        'Width of the dorsal fin at its base.',
        measured('mm', 1, 60, true),
      ),
      trait('ray_branches', 'Tail ray branches', 'Ends that one tail ray splits into.', {
        minimum: 1,
        maximum: 16,
        grades: [
          { from: 1, name: 'unsplit' },
          { from: 2, name: 'two' },
          { from: 4, name: 'four' },
          { from: 8, name: 'eight or more' },
        ],
      }),
      trait(
        'spread_at_rest',
        'Spread at rest',
        'Angle between first and last tail ray, not flaring.',
        measured('°', 0, 240, true),
      ),
    ],
    faults: [
      { name: 'Small dorsal', severity: 'minor' },
      { name: 'Curled or bent rays', severity: 'minor' },
      { name: 'Gaps between fins', severity: 'major' },
    ],
  },
  {
    key: 'grown',
    name: 'Spread, colour and balance at 16 to 24 weeks',
    description:
      'The look that decides who breeds. Spread still changes until five to six months: date every score.',
    fromAgeDays: 112,
    toAgeDays: 168,
    traits: [
      trait(
        'caudal_spread',
        'Caudal spread',
        'Angle between the first and last ray of the tail, flaring.',
        {
          ...measured('°', 0, 240, true),
          grades: [
            { from: 0, name: 'delta' },
            { from: 160, name: 'superdelta' },
            { from: 180, name: 'halfmoon' },
            { from: 181, name: 'over-halfmoon' },
          ],
        },
      ),
      trait(
        'fin_balance',
        'Fin balance',
        '5: dorsal, tail and anal fin match and trace one curve.',
      ),
      trait('colour_evenness', 'Colour evenness', '5: one even colour over body and fins.'),
      trait('body_length', 'Body length', 'Without the tail fin.', measured('mm', 5, 120, null)),
      trait('bearing', 'Bearing', '5: lively, shows itself when a person comes near.'),
    ],
    faults: [
      { name: 'Torn fin', severity: 'slight' },
      { name: 'Shyness', severity: 'slight' },
      { name: 'Scales out of line', severity: 'minor' },
      { name: 'Off-colour wash', severity: 'minor' },
      { name: 'Curled or bent rays', severity: 'minor' },
      { name: 'Gaps between fins', severity: 'major' },
      { name: 'Undersize', severity: 'major' },
      { name: 'Spoon head', severity: 'severe' },
      { name: 'Egg spot on a male, or none on a female', severity: 'major' },
      { name: 'Blind in an eye', severity: 'disqualifying' },
      { name: 'Altered by hand', severity: 'disqualifying' },
    ],
  },
  {
    key: 'crowntail',
    name: 'Crowntail at 16 to 24 weeks',
    description: 'How far the web is drawn in, and how the rays stand.',
    fromAgeDays: 112,
    toAgeDays: 168,
    traits: [
      trait('web_reduction', 'Web reduction', 'How far the web between tail rays is drawn in.', {
        ...measured('%', 0, 100, null),
        grades: [
          { from: 0, name: 'combtail' },
          { from: 33, name: 'crowntail' },
        ],
      }),
      trait('ray_evenness', 'Evenness of rays', '5: single, double or cross rays alike all round.'),
      trait(
        'fin_balance',
        'Fin balance',
        '5: dorsal, tail and anal fin match and trace one curve.',
      ),
    ],
    faults: [
      { name: 'Curled or bent rays', severity: 'major' },
      { name: 'Broken rays', severity: 'minor' },
    ],
  },
];
