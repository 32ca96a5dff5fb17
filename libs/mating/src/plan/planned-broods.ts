import type { ParentChoice, Route } from '../schemes/route.js';

/** A parent that a plan names: an actual fish by its id, or the best young of a planned brood, by the place of that brood in the plan. */
export type PlanParent =
  | { readonly kind: 'fish'; readonly id: string }
  | { readonly kind: 'best'; readonly brood: number };

/** One brood of a plan. Broods stand in the order of their generations. */
export interface PlanBrood {
  /** From 1. */
  readonly generation: number;
  readonly sire: PlanParent;
  readonly dam: PlanParent;
  /** F by the pedigree if the plan is followed, 0 to 1. */
  readonly inbreeding: number;
}

/**
 * The broods of a route one after another, with fish by id and the F that each will have.
 *
 * F is that of the pedigree that the route makes, by the tabular method (Emik LO & Terrill CE 1949, J Hered 40:51-55): it does not depend on
 * which young are chosen, only on which broods they come from.
 *
 * @param coancestry between two places of the route; of a place with itself (1 + F)/2.
 */
export function plannedBroods(
  { steps }: Pick<Route, 'steps'>,
  idOf: (place: number) => string,
  coancestry: (a: number, b: number) => number,
): PlanBrood[] {
  const firstOf: number[] = [];
  let before = 0;
  for (const { broods } of steps) {
    firstOf.push(before);
    before += broods.length;
  }
  const flat = steps.flatMap(({ broods }, step) => broods.map((brood) => ({ ...brood, step })));
  const placeOf = ({ step, brood }: Extract<ParentChoice, { kind: 'best' }>): number =>
    firstOf[step]! + brood;
  const between = planCoancestry(flat, placeOf, coancestry);
  const parent = (choice: ParentChoice): PlanParent =>
    choice.kind === 'fish'
      ? { kind: 'fish', id: idOf(choice.fish) }
      : { kind: 'best', brood: placeOf(choice) };
  return flat.map(({ sire, dam, step }) => ({
    generation: step + 1,
    sire: parent(sire),
    dam: parent(dam),
    inbreeding: between(sire, 'male', dam, 'female'),
  }));
}

type Sex = 'male' | 'female';

/** Coancestry of two parents of a plan; the young of a brood that are sires are one male, those that are dams one female. */
function planCoancestry(
  flat: readonly { readonly sire: ParentChoice; readonly dam: ParentChoice }[],
  placeOf: (choice: Extract<ParentChoice, { kind: 'best' }>) => number,
  coancestry: (a: number, b: number) => number,
): (a: ParentChoice, aSex: Sex, b: ParentChoice, bSex: Sex) => number {
  const known = new Map<string, number>();
  const keyOf = (choice: ParentChoice, sex: Sex): string =>
    choice.kind === 'fish' ? `fish ${choice.fish}` : `${sex} ${placeOf(choice)}`;
  const ageOf = (choice: ParentChoice): number => (choice.kind === 'fish' ? -1 : placeOf(choice));
  const between = (a: ParentChoice, aSex: Sex, b: ParentChoice, bSex: Sex): number => {
    if (ageOf(a) < ageOf(b)) return between(b, bSex, a, aSex);
    if (a.kind === 'fish') return coancestry(a.fish, b.kind === 'fish' ? b.fish : a.fish);
    const key = `${keyOf(a, aSex)} ${keyOf(b, bSex)}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const { sire, dam } = flat[placeOf(a)]!;
    const value =
      keyOf(a, aSex) === keyOf(b, bSex)
        ? (1 + between(sire, 'male', dam, 'female')) / 2
        : (between(sire, 'male', b, bSex) + between(dam, 'female', b, bSex)) / 2;
    known.set(key, value);
    return value;
  };
  return between;
}
