/** Where a parent of a planned brood comes from. */
export type ParentChoice =
  /** An actual fish, by its place among the candidates. */
  | { readonly kind: 'fish'; readonly fish: number }
  /** The best young of its sex out of a brood of an earlier step; `brood` is its place in the step. */
  | { readonly kind: 'best'; readonly step: number; readonly brood: number };

export interface PlannedBrood {
  readonly sire: ParentChoice;
  readonly dam: ParentChoice;
}

/** Broods that are raised side by side. */
export interface RouteStep {
  readonly broods: readonly PlannedBrood[];
}

export const SCHEMES = [
  'siblings',
  'back-to-sire',
  'back-to-dam',
  'outcross-then-back',
  'two-sub-lines',
] as const;

/**
 * How the generations of a route follow each other: brother to sister; the best young back to sire or dam; a cross to a fish of another
 * line, then back to the line; two pairs bred apart and then crossed.
 */
export type Scheme = (typeof SCHEMES)[number];

/** A scheme with its actual fish. */
export interface Route {
  readonly scheme: Scheme;
  /** Places of the actual fish: sire and dam; with two sub-lines those of the second pair as well; with an outcross the fish of the line first. */
  readonly fish: readonly number[];
  readonly steps: readonly RouteStep[];
}

export interface RouteLengths {
  /** Generations at most. */
  readonly generations: number;
  /** In how many generations an actual fish can be a parent, by its age. */
  readonly parentGenerations: number;
}

const fish = (at: number): ParentChoice => ({ kind: 'fish', fish: at });
const best = (step: number, brood = 0): ParentChoice => ({ kind: 'best', step, brood });
const brood = (sire: ParentChoice, dam: ParentChoice): PlannedBrood => ({ sire, dam });
const one = (sire: ParentChoice, dam: ParentChoice): RouteStep => ({ broods: [brood(sire, dam)] });

/** Brother to sister, over and over. */
export function siblingRoute(sire: number, dam: number, { generations }: RouteLengths): Route {
  const steps = [one(fish(sire), fish(dam))];
  while (steps.length < generations) steps.push(sibs(steps.length));
  return { scheme: 'siblings', fish: [sire, dam], steps };
}

/** The best daughters back to the sire, or sons back to the dam, as long as it lives; then brother to sister. */
export function backToParentRoute(
  sire: number,
  dam: number,
  parent: 'sire' | 'dam',
  { generations, parentGenerations }: RouteLengths,
): Route {
  const steps = [one(fish(sire), fish(dam))];
  while (steps.length < generations) {
    const last = best(steps.length - 1);
    if (steps.length >= parentGenerations) steps.push(sibs(steps.length));
    else steps.push(parent === 'sire' ? one(fish(sire), last) : one(last, fish(dam)));
  }
  return { scheme: `back-to-${parent}`, fish: [sire, dam], steps };
}

/**
 * A cross of a fish of the line with one of another, the best young back to a fish of the line as long as that lives, then brother to
 * sister. `back` is of the line and may be the fish of the cross.
 */
export function outcrossRoute(
  { line, other, back }: { readonly line: number; readonly other: number; readonly back: number },
  isMale: (at: number) => boolean,
  { generations, parentGenerations }: RouteLengths,
): Route {
  const first = isMale(line) ? one(fish(line), fish(other)) : one(fish(other), fish(line));
  const steps = [first];
  while (steps.length < generations) {
    const young = best(steps.length - 1);
    if (steps.length >= parentGenerations) steps.push(sibs(steps.length));
    else steps.push(isMale(back) ? one(fish(back), young) : one(young, fish(back)));
  }
  return { scheme: 'outcross-then-back', fish: [line, other, back], steps };
}

/** Two pairs bred brother to sister for `apart` generations side by side, then crossed, then brother to sister. */
export function twoSubLinesRoute(
  pairs: readonly [readonly [number, number], readonly [number, number]],
  apart: number,
  { generations }: RouteLengths,
): Route {
  const steps: RouteStep[] = [{ broods: pairs.map(([sire, dam]) => brood(fish(sire), fish(dam))) }];
  while (steps.length < Math.min(apart, generations)) {
    const last = steps.length - 1;
    steps.push({ broods: [0, 1].map((at) => brood(best(last, at), best(last, at))) });
  }
  if (steps.length < generations) {
    const last = steps.length - 1;
    steps.push(one(best(last, 0), best(last, 1)));
  }
  while (steps.length < generations) steps.push(sibs(steps.length));
  return { scheme: 'two-sub-lines', fish: pairs.flat(), steps };
}

const sibs = (step: number): RouteStep => one(best(step - 1), best(step - 1));
