import { MatingError } from '../mating-error.js';
import type { LinePurpose, TraitAim } from '../purpose/line-purpose.js';
import type { SimulatedLine } from './simulated-line.js';

/** Points of one fish for one trait: what it is worth over a fish at 0, or inside of the range. */
export function traitPoints({ better, low, high, worth }: TraitAim, value: number): number {
  if (better === 'higher') return worth * value;
  if (better === 'lower') return -worth * value;
  const outside = Math.max(0, (low ?? -Infinity) - value, value - (high ?? Infinity));
  return -worth * outside;
}

export const passesAim = ({ low, high }: TraitAim, value: number): boolean =>
  (low === null || value >= low) && (high === null || value <= high);

interface SeenLook {
  readonly wanted: boolean;
  readonly worth: number;
  readonly required: boolean;
  /** Locus and phenotype by their places. */
  readonly parts: readonly { readonly locus: number; readonly phenotype: number }[];
}

/** Judges simulated fish as a keeper would who scores them: by what is seen, error and chance included. */
export class FishJudge {
  readonly #line: SimulatedLine;
  readonly #traits: readonly { readonly at: number; readonly aim: TraitAim }[];
  readonly #looks: readonly SeenLook[];

  /** @throws MatingError MATING_BAD_SETTING for a trait or locus of which nothing is believed. */
  constructor(line: SimulatedLine, { traits, looks }: Pick<LinePurpose, 'traits' | 'looks'>) {
    this.#line = line;
    this.#traits = traits.map((aim) => {
      const at = line.belief.traits.findIndex(({ traitId }) => traitId === aim.traitId);
      if (at < 0) throw nothingKnown(aim.traitId);
      return { at, aim };
    });
    this.#looks = looks.map(({ look, wanted, worth, required }) => ({
      wanted,
      worth,
      required,
      parts: Object.entries(look.show).map(([id, shown]) => {
        const locus = line.tables.findIndex((table) => table.locus.id === id);
        if (locus < 0) throw nothingKnown(id);
        const { phenotypes } = line.tables[locus]!.locus;
        return { locus, phenotype: phenotypes.findIndex((one) => one.id === shown) };
      }),
    }));
  }

  /** Points of a fish by its score and looks. */
  points(fish: number): number {
    const { score, traits } = this.#line;
    let sum = 0;
    for (const { at, aim } of this.#traits) sum += traitPoints(aim, score[fish * traits + at]!);
    return sum + this.#lookPoints(fish);
  }

  /** Points of a fish by its looks, and for each trait by a value that is given in the trait's unit. */
  pointsAt(fish: number, valueOf: (trait: number) => number): number {
    let sum = 0;
    for (const { at, aim } of this.#traits) sum += traitPoints(aim, valueOf(at));
    return sum + this.#lookPoints(fish);
  }

  /** Whether it passes the keeper's standard, as scored. */
  passes(fish: number): boolean {
    const { score, traits } = this.#line;
    return (
      this.#traits.every(({ at, aim }) => passesAim(aim, score[fish * traits + at]!)) &&
      this.#looks.every((look) => !look.required || this.#shows(fish, look) === look.wanted)
    );
  }

  #lookPoints(fish: number): number {
    let sum = 0;
    for (const look of this.#looks)
      if (this.#shows(fish, look)) sum += look.wanted ? look.worth : -look.worth;
    return sum;
  }

  #shows(fish: number, { parts }: SeenLook): boolean {
    const { shown, loci } = this.#line;
    return parts.every(
      ({ locus, phenotype }) =>
        shown[fish * loci + locus] === phenotype && this.#line.isSeen(fish, locus),
    );
  }
}

const nothingKnown = (id: string): MatingError =>
  new MatingError(
    'MATING_BAD_SETTING',
    id,
    `Nothing is known of "${id}" in these fish, so it cannot be simulated: record it, or take it from the target.`,
  );
