import { normals, traitsTogether } from '@linewright/merit';
import { RandomBits } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import type { LookRow } from '../stock/merit-rows.js';
import { runTogether } from './run-together.js';
import { scoresTogether, togetherTask } from './together-task.js';
import type { TraitStock } from './trait-records.service.js';
import { usualSettings } from './trait-settings.js';

const PAIRS = 30;
const YOUNG = 8;

/** Broods of unrelated pairs, scored in two traits whose breeding values go together with 0.7; the second only of three in four. */
const simulated = (): readonly [TraitStock, TraitStock] => {
  const bits = new RandomBits(7);
  const normal = normals(() => bits.uniform());
  const [sire, dam]: [number[], number[]] = [[], []];
  const bred: (readonly [number, number])[] = [];
  const together = (): readonly [number, number] => {
    const x = normal();
    return [x, 0.7 * x + Math.sqrt(1 - 0.49) * normal()];
  };
  const ids: string[] = [];
  const looks: [LookRow[], LookRow[]] = [[], []];
  const add = (s: number, d: number, value: readonly [number, number]): number => {
    ids.push(`f${ids.length}`);
    sire.push(s);
    dam.push(d);
    bred.push(value);
    return ids.length - 1;
  };
  for (let pair = 0; pair < PAIRS; pair++) {
    const s = add(-1, -1, together());
    const d = add(-1, -1, together());
    for (let k = 0; k < YOUNG; k++) {
      const own = together();
      const i = add(s, d, [
        (bred[s]![0] + bred[d]![0]) / 2 + Math.SQRT1_2 * own[0],
        (bred[s]![1] + bred[d]![1]) / 2 + Math.SQRT1_2 * own[1],
      ]);
      const look = (trait: 0 | 1): LookRow => ({
        ...{ id: `${trait} ${i}`, fishId: ids[i]!, scoredOn: '2026-03-01', ageDays: 90 },
        ...{ scorer: 'A', version: 1, swimsWithId: null, recordedAt: i },
        value: 10 + bred[i]![trait] + normal(),
      });
      looks[0].push(look(0));
      if (k % 4 > 0) looks[1].push(look(1));
    }
  }
  const pedigree = {
    ...{ ids, size: ids.length, sire: Int32Array.from(sire), dam: Int32Array.from(dam) },
    has: (id: string) => ids.includes(id),
    indexOf: (id: string) => ids.indexOf(id),
  };
  const stock = (trait: 0 | 1): TraitStock =>
    ({
      trait: { id: `t${trait}`, name: trait === 0 ? 'spread' : 'length', kind: 'measured' },
      settings: { ...usualSettings('measured'), brood: false, prior: 'flat' },
      ...{ pedigree, looks: looks[trait], facts: new Map() },
      ...{ lineOfSpawn: new Map(), codeOfLine: new Map(), beside: [] },
    }) as unknown as TraitStock;
  return [stock(0), stock(1)];
};

describe('two traits of a stock', () => {
  const [first, second] = simulated();
  const task = togetherTask(first, second);

  it('stand in one row a fish and day, with a gap where one was not scored', () => {
    expect(task.task.fish.length).toBe(PAIRS * YOUNG);
    const gaps = [...task.second.values].filter((value) => Number.isNaN(value)).length;
    expect(gaps).toBe((PAIRS * YOUNG) / 4);
    const only = togetherTask({ ...first, looks: first.looks.slice(0, 5) }, second);
    expect(only.task.fish.length).toBe((PAIRS * YOUNG * 3) / 4 + 2);
    expect([...only.task.values].filter((value) => !Number.isNaN(value)).length).toBe(5);
  });

  it('are what the library says of them, covariances included', () => {
    const { found, refusal } = runTogether(task);
    const direct = traitsTogether(scoresTogether(task));
    expect(refusal).toBeNull();
    expect(found!.verdict).toBe('together');
    expect(found!.verdict).toBe(direct.verdict);
    expect(found!.correlations[0]!.correlation!.value).toBe(
      direct.correlations[0]!.correlation!.value,
    );
    expect(found!.correlations[0]!.correlation!.value).toBeGreaterThan(0.3);
    const { additive, residual, commonBrood } = found!.covariances;
    const [g] = direct.solved.variances.random;
    expect(additive).toEqual(g);
    expect(residual[1]![0]).toBeCloseTo(direct.solved.variances.residual[1]![0]!, 12);
    expect(commonBrood).toEqual([
      [0, 0],
      [0, 0],
    ]);
    const equations = direct.solved.equations.termEquation[0]!;
    for (const i of [0, 2, 9])
      for (const trait of [0, 1])
        expect(found!.values[trait]!.value[i]!).toBeCloseTo(
          direct.solved.solution[equations[2 * i + trait]!]!,
          6,
        );
  });

  it('are answered by iteration where a factor does not fit, and it is said', () => {
    const told: number[] = [];
    const large = runTogether(task, (share) => told.push(share), 10);
    const whole = runTogether(task);
    expect(large.notes.join(' ')).toMatch(/240 scored fish of 30 broods.*60 drawn sets/s);
    // All broods fit into the part, so the variances are the same, and the values too.
    expect(large.found!.covariances).toEqual(whole.found!.covariances);
    whole.found!.values[1]!.value.forEach((value, i) =>
      expect(large.found!.values[1]!.value[i]!).toBeCloseTo(value, 5),
    );
    expect(told.every((share, k) => k === 0 || share >= told[k - 1]!)).toBe(true);
  });

  it('count what a brood shares as inherited where full sibs alone cannot tell, and say so', () => {
    const settings = { ...first.settings, brood: true };
    const withBrood = togetherTask(
      {
        ...{ ...first, settings },
        facts: new Map(
          first.pedigree.ids.map((id, i) => [
            id,
            { spawnId: first.pedigree.sire[i]! < 0 ? null : `b${first.pedigree.sire[i]!}` },
          ]),
        ) as unknown as TraitStock['facts'],
      },
      second,
    );
    expect(withBrood.task.shared.map(({ name }) => name)).toEqual(['brood']);
    const { found, refusal, notes } = runTogether(withBrood);
    expect(refusal).toBeNull();
    expect(notes[0]).toContain('(brood): it counts as inherited here');
    expect(found!.correlations.map(({ name }) => name)).toEqual(['additive', 'residual']);
  });

  it('take a lasting effect to the trait alone that was looked at again', () => {
    const again = second.looks.slice(0, 90).map((look, k) => ({
      ...look,
      ...{ scoredOn: '2026-03-09', value: look.value + ((k * 7) % 5) / 5 - 0.4 },
    }));
    const twice = togetherTask(first, { ...second, looks: [...second.looks, ...again] });
    expect(twice.task.looks).toBe(true);
    const { found, refusal, notes } = runTogether(twice);
    expect([refusal, notes]).toEqual([null, []]);
    expect(found!.verdict).toBe('together');
    const [, lasting] = found!.correlations;
    expect(lasting).toEqual({ name: 'permanent', correlation: null });
    // What lasts belongs to each fish: it stands with the rest, and only in the trait that has it.
    const direct = traitsTogether(scoresTogether(twice)).solved;
    const { residual } = found!.covariances;
    expect(direct.variances.random[1]).toHaveLength(1);
    expect(residual[0]![0]).toBeCloseTo(direct.variances.residual[0]![0]!, 9);
    expect(residual[1]![1]).toBeCloseTo(
      direct.variances.residual[1]![1]! + direct.variances.random[1]![0]![0]!,
      9,
    );
  });

  it('say of how many fish the two were never scored on one day', () => {
    const later = second.looks.map((look, k) => ({
      ...look,
      scoredOn: k < 12 ? '2026-03-20' : look.scoredOn,
    }));
    const apart = togetherTask(first, { ...second, looks: later });
    // No fish has two scores of one trait: rows of two days are no repeated looks.
    expect(apart.task.looks).toBe(false);
    const { found, notes } = runTogether(apart);
    expect(found).not.toBeNull();
    expect(notes).toEqual([
      expect.stringMatching(/^12 fish were scored .* on different days only/),
    ]);
  });

  it('say why they cannot be worked out', () => {
    const few = togetherTask(
      { ...first, looks: first.looks.slice(0, 2) },
      { ...second, looks: second.looks.slice(0, 2) },
    );
    const { found, refusal } = runTogether(few);
    expect(found).toBeNull();
    expect(refusal?.code).toMatch(/^MERIT_/);
  });
});
