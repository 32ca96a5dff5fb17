import type { MatingKind } from './relationship.js';
import type { DemoLocus, SimulatedFish } from './simulated-fish.js';
import { doses } from './simulated-fish.js';

/** A bought fish: sex and doses of each second allele (0 where not named). */
export interface FounderPlan {
  readonly name: string | null;
  readonly sex: 'male' | 'female';
  readonly doses: Partial<Readonly<Record<DemoLocus, 0 | 1 | 2>>>;
  readonly origin: string;
  readonly note?: string;
}

export interface MatingPlan {
  readonly kind: MatingKind;
  readonly purpose: string;
  /** 1: at the partner's, with the partner's fish first. */
  readonly person?: 0 | 1;
  /** Which pairs may serve, beside the relationship; dropped when none does. */
  readonly pair?: (sire: SimulatedFish, dam: SimulatedFish) => boolean;
  /** A fish bought, or taken from another line, for this mating. */
  readonly outcross?: FounderPlan | { readonly fromLine: number; readonly sex: 'male' | 'female' };
  readonly fails?: string;
  /** Adds to a young fish's merit in this brood: what the person was looking for. */
  readonly wanted?: (fry: Pick<SimulatedFish, 'genome' | 'sex'>) => number;
}

export interface LinePlan {
  readonly code: string;
  readonly name: string;
  readonly goal: string;
  readonly loci: readonly DemoLocus[];
  /** Locus whose classes are counted in every brood. */
  readonly counted: DemoLocus;
  readonly founders: readonly FounderPlan[];
  /** Matings by generation, the first from the founders. The last generation is the youngest. */
  readonly generations: readonly (readonly MatingPlan[])[];
  /** Age of the last generation's first brood today, in days. */
  readonly youngestAge: number;
  readonly merit: (fish: Pick<SimulatedFish, 'genome' | 'sex'>) => number;
  /** A pair that the person with this line would never set up. */
  readonly avoids?: (sire: SimulatedFish, dam: SimulatedFish) => boolean;
}

const UNRELATED = 'bought from a breeder of another region: unrelated to the other fish';
const BOUGHT = 'bought from a hobbyist, parents not known';
const carriesDoubleTail = (fish: Pick<SimulatedFish, 'genome'>) => doses(fish, 'dt') === 1;
const mating = (kind: MatingKind, purpose: string, more: Partial<MatingPlan> = {}): MatingPlan => ({
  kind,
  purpose,
  ...more,
});
const firstPair = mating('any', 'first pair', {
  pair: (sire, dam) => sire.name !== null && dam.name !== null,
});
const secondPair = mating('any', 'second pair', {
  pair: (sire, dam) => sire.name === null && dam.name === null,
});
const sibs = mating('full-sib', 'fix what the brood showed');
const halfSibs = mating('half-sib', 'hold the sire, keep the dams apart');
const back = mating('parent-offspring', 'bring back the parent');
const open = mating('least-related', 'keep the line open');
const aunt = mating('uncle-niece', 'same blood, one step aside');
const lent = mating('least-related', 'with a fish lent by the other keeper', {
  pair: (sire, dam) => sire.person !== dam.person,
});
const cousins = mating('cousin', 'join two branches');

const reed: LinePlan = {
  code: 'RB',
  name: 'Reedwater blue',
  goal: 'Even royal blue halfmoons of 180 degrees that hold it beyond a year; wide dorsal without double tail.',
  loci: ['bl', 'dt'],
  counted: 'bl',
  founders: [
    { name: 'Sallow', sex: 'male', doses: { bl: 1 }, origin: UNRELATED },
    { name: 'Mere', sex: 'female', doses: { bl: 2 }, origin: UNRELATED },
    { name: null, sex: 'male', doses: { bl: 2 }, origin: UNRELATED },
    { name: null, sex: 'female', doses: { bl: 0 }, origin: UNRELATED },
  ],
  generations: [
    [firstPair, secondPair],
    [mating('least-related', 'join the two first broods'), sibs],
    [sibs, halfSibs],
    [
      mating('any', 'new blood for a wider dorsal', {
        outcross: {
          name: 'Bramble',
          sex: 'female',
          doses: { bl: 1, dt: 1 },
          origin: UNRELATED,
          note: 'Single tail with a very wide dorsal. Her grandchildren showed that she carries double tail.',
        },
        wanted: (fry) => (carriesDoubleTail(fry) ? 2 : 0),
      }),
      halfSibs,
    ],
    [
      mating('full-sib', 'fix the wide dorsal', {
        pair: (sire, dam) => carriesDoubleTail(sire) && carriesDoubleTail(dam),
        wanted: (fry) => (doses(fry, 'dt') === 2 && fry.sex === 'male' ? 4 : 0),
      }),
      open,
    ],
    [
      mating('any', 'test mating: does she carry double tail?', {
        pair: (sire, dam) => doses(sire, 'dt') === 2 && carriesDoubleTail(dam),
      }),
      open,
      mating('full-sib', 'start of the part kept by the partner', { person: 1 }),
    ],
    [
      sibs,
      mating('any', 'new blood for vigour', {
        outcross: { name: 'Heron', sex: 'male', doses: { bl: 2 }, origin: BOUGHT },
      }),
      { ...lent, person: 1 },
    ],
    [
      mating('least-related', 'cross the two parts of the line', {
        pair: (sire, dam) => sire.person !== dam.person,
      }),
      back,
      { ...sibs, person: 1 },
    ],
    [halfSibs, sibs, open, { ...lent, person: 1 }],
    [mating('least-related', 'lower the inbreeding, keep the spread')],
  ],
  youngestAge: 14,
  merit: (fish) => (doses(fish, 'bl') === 1 ? 0.4 : 0) - (doses(fish, 'dt') === 2 ? 2 : 0),
};

const soot: LinePlan = {
  code: 'SB',
  name: 'Sootwing black',
  goal: 'Dense melano black on a steel ground. Black sires on carrier dams only.',
  loci: ['m', 'bl'],
  counted: 'm',
  founders: [
    { name: 'Cinder', sex: 'male', doses: { m: 2, bl: 2 }, origin: UNRELATED },
    { name: 'Flint', sex: 'female', doses: { m: 1, bl: 2 }, origin: UNRELATED },
    { name: null, sex: 'male', doses: { m: 1, bl: 2 }, origin: UNRELATED },
    { name: null, sex: 'female', doses: { m: 1, bl: 2 }, origin: UNRELATED },
  ],
  generations: [
    [
      mating('any', 'black sire on a carrier', { pair: (sire) => doses(sire, 'm') === 2 }),
      mating('any', 'two carriers', {
        pair: (sire, dam) => doses(sire, 'm') === 1 && doses(dam, 'm') === 1,
        // The first black females are kept for their looks, before their eggs are known to fail.
        wanted: (fry) => (fry.sex === 'female' && doses(fry, 'm') === 2 ? 4 : 0),
      }),
    ],
    [open, sibs],
    [
      mating('any', 'black on black, tried once', {
        pair: (sire, dam) => doses(sire, 'm') === 2 && doses(dam, 'm') === 2,
        fails: 'Eggs laid, none hatched. Melano females do not bring young.',
      }),
      halfSibs,
      sibs,
    ],
    [back, open],
    [
      mating('any', 'new blood: a steel dam of the blue line', {
        outcross: { fromLine: 0, sex: 'female' },
      }),
      sibs,
    ],
    [mating('least-related', 'bring the black back after the outcross'), back],
    [sibs, open],
    [
      mating('any', 'fresh carrier bought in', {
        outcross: { name: 'Ash', sex: 'female', doses: { m: 1, bl: 2 }, origin: BOUGHT },
      }),
      sibs,
    ],
    [open, halfSibs, aunt],
    [sibs, open],
  ],
  youngestAge: 97,
  merit: (fish) => {
    const black = doses(fish, 'm') === 2;
    if (fish.sex === 'male') return black ? 2 : 0;
    // A carrier female is worth more than a black one, which cannot breed.
    return doses(fish, 'm') === 1 ? 1.5 : 0.3;
  },
  avoids: (sire, dam) => doses(dam, 'm') === 2 || doses(sire, 'm') + doses(dam, 'm') === 0,
};

const pale: LinePlan = {
  code: 'PE',
  name: 'Pale ember',
  goal: 'Clean cambodian bodies with deep red fins, no wash.',
  loci: ['c'],
  counted: 'c',
  founders: [
    { name: 'Tallow', sex: 'male', doses: { c: 2 }, origin: UNRELATED },
    { name: 'Rowan', sex: 'female', doses: { c: 1 }, origin: UNRELATED },
    { name: null, sex: 'male', doses: { c: 1 }, origin: UNRELATED },
    { name: null, sex: 'female', doses: { c: 1 }, origin: UNRELATED },
  ],
  generations: [
    [firstPair, secondPair],
    [open, halfSibs],
    [sibs, cousins],
    [aunt, sibs],
    [back, open],
    [
      mating('any', 'new blood for deeper red', {
        outcross: { name: 'Garnet', sex: 'male', doses: { c: 0 }, origin: UNRELATED },
      }),
      halfSibs,
    ],
    [mating('least-related', 'bring the pale body back'), sibs],
    [sibs, cousins],
    [halfSibs, aunt, open],
    [open, sibs],
  ],
  youngestAge: 64,
  merit: (fish) => (doses(fish, 'c') === 2 ? 1 : 0),
};

/** Days from one generation's first brood to the next one's. */
export const GENERATION_DAYS = 172;
export const LINES: readonly LinePlan[] = [reed, soot, pale];
/** Both invented; so are the names of lines and fish. */
export const PEOPLE_NAMES = ['Odo Quillfeather', 'Wren Tidewhistle'] as const;

/** The person knows where such a fish comes from; of the others nobody knows whom they are kin to. */
export const isUnrelated = (origin: string | null): boolean => origin === UNRELATED;
