import { type Chance, pedigreeFromArrays } from '@linewright/pedigree';
import {
  classesOverHeritability,
  normals,
  type AnimalScores,
  type Posterior,
  valuesOverHeritability,
} from '@linewright/merit';

/** What a score holds beside the breeding value and the rest: nothing, what a brood shares, what stays with a fish; or yes/no, or grades. */
export type LineModel = 'one look' | 'brood' | 'two looks' | 'yes/no' | 'five grades';

export interface LineKind {
  readonly fish: number;
  readonly scoring: 'random half' | 'best half';
  readonly truth: '0 to 1' | '0.3';
  readonly model: LineModel;
}

/** A line whose truth is known. */
export interface SimulatedLine {
  readonly heritability: number;
  /** Breeding values, scores (or what stands behind yes and no) having variance 1. */
  readonly value: Float64Array;
  readonly scores: AnimalScores;
}

/** Share of the further term where the heritability is 0.3. */
const FURTHER = 0.2;
/** A look takes so many rows. */
const LOOKS = { 'one look': 1, brood: 1, 'two looks': 2, 'yes/no': 1, 'five grades': 1 } as const;

/**
 * Broods of ten; a fifth of the fish are founders, parents come from the generation before; half of each brood is scored. The heritability is
 * drawn from 0 to 1 or is 0.3; a further term takes a part of what is left, drawn from 0 to 1, or 0.2 of the whole.
 */
export function simulatedLine(chance: Chance, kind: LineKind): SimulatedLine {
  const { fish, truth, model } = kind;
  const heritability = truth === '0.3' ? 0.3 : chance();
  const normal = normals(chance);
  const further = furtherShare(chance, kind, heritability);
  const { sire, dam, brood, value, noise } = bred(chance, normal, fish, heritability);
  const shared = Float64Array.from(
    { length: model === 'brood' ? 1 + Math.max(...brood) : fish },
    () => (further > 0 ? Math.sqrt(further) * normal() : 0),
  );
  const rest = Math.sqrt(1 - heritability - further);
  const looks = Array.from({ length: LOOKS[model] }, (_, look) =>
    value.map((own, i) => {
      const more = model === 'brood' ? (brood[i]! > 0 ? shared[brood[i]!]! : 0) : shared[i]!;
      return own + more + rest * (look === 0 ? noise[i]! : normal());
    }),
  );
  const kept = scoredFish(brood, looks[0]!, kind, chance);
  return {
    heritability,
    value,
    scores: {
      pedigree: pedigreeFromArrays(sire, dam),
      fish: Int32Array.from(looks.flatMap(() => kept)),
      traits: [
        {
          name: 'score',
          values: Float64Array.from(looks.flatMap((of) => kept.map((i) => shownAs(model, of[i]!)))),
        },
      ],
      ...(model === 'two looks' && { permanent: true }),
      ...(model === 'brood' && { shared: [broodColumn(brood, kept)] }),
    },
  };
}

/** Values and heritability under a flat prior, by the model that the line was made by. */
export function posteriorOf({ scores }: SimulatedLine, { model }: LineKind): Posterior {
  if (!isGraded(model)) return valuesOverHeritability(scores);
  const { traits, ...rest } = scores;
  const [{ name: trait, values }] = traits as [AnimalScores['traits'][number]];
  const grades = [...new Set(values)].sort((a, b) => a - b);
  return classesOverHeritability({
    ...{ ...rest, trait, classes: grades.length },
    scores: Int32Array.from(values, (value) => grades.indexOf(value)),
  });
}

export const isGraded = (model: LineModel): boolean =>
  model === 'yes/no' || model === 'five grades';

/** Grades from what stands behind them, of mean 0 and standard deviation 1. */
const shownAs = (model: LineModel, behind: number): number =>
  model === 'yes/no'
    ? Number(behind > 0)
    : model === 'five grades'
      ? Math.max(0, Math.min(4, Math.floor(behind + 2.5)))
      : behind;

/** Yes/no scores of which all are alike say nothing and are refused. */
export const tellsNothing = ({ scores }: SimulatedLine): boolean =>
  new Set(scores.traits[0]!.values).size < 2;

const furtherShare = (chance: Chance, { model, truth }: LineKind, heritability: number): number =>
  model === 'one look' || isGraded(model)
    ? 0
    : truth === '0.3'
      ? FURTHER
      : chance() * (1 - heritability);

/** Broods are counted from 1; founders have none, which is 0. */
function bred(chance: Chance, normal: () => number, fish: number, heritability: number) {
  const sire = new Int32Array(fish).fill(-1);
  const dam = new Int32Array(fish).fill(-1);
  const value = new Float64Array(fish);
  const brood = new Int32Array(fish);
  /** Of the first look, drawn with its fish. */
  const noise = new Float64Array(fish);
  const each = Math.floor(fish / 5 / 2) * 2;
  for (let i = 0, broods = 0, s = -1, d = -1; i < fish; i++) {
    const first = Math.floor(i / each) * each;
    if (first > 0 && (i - first) % 10 === 0) {
      broods++;
      s = first - each + 2 * Math.floor((chance() * each) / 2);
      d = first - each + 1 + 2 * Math.floor((chance() * each) / 2);
    }
    if (first > 0) [sire[i], dam[i], brood[i]] = [s, d, broods];
    value[i] =
      first === 0
        ? Math.sqrt(heritability) * normal()
        : (value[s]! + value[d]!) / 2 + Math.sqrt(heritability / 2) * normal();
    noise[i] = normal();
  }
  return { sire, dam, value, noise, brood };
}

const broodColumn = (brood: Int32Array, kept: readonly number[]) => {
  const levels = [...new Set(kept.map((i) => brood[i]!))].filter((of) => of > 0);
  const codes = Int32Array.from(kept, (i) => levels.indexOf(brood[i]!));
  return { name: 'brood', levels: levels.map(String), codes };
};

function scoredFish(
  brood: Int32Array,
  score: Float64Array,
  { scoring }: LineKind,
  chance: Chance,
): number[] {
  const members = new Map<number, number[]>();
  brood.forEach((b, i) => {
    const list = members.get(b);
    if (list === undefined) members.set(b, [i]);
    else list.push(i);
  });
  return [...members.values()].flatMap((list) => {
    const lot = new Map(list.map((i) => [i, chance()]));
    const by = scoring === 'best half' ? (i: number) => -score[i]! : (i: number) => lot.get(i)!;
    return [...list].sort((a, b) => by(a) - by(b)).slice(0, Math.ceil(list.length / 2));
  });
}
