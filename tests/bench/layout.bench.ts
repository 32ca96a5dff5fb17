import { seededChance } from '@linewright/pedigree';
import { layoutPedigree, type SliceFish } from '@linewright/pedigree-layout';

/** A line-bred pedigree: `pairs` matings a generation, `young` recorded fish a spawn, some matings back to older fish. */
function lineBred(seed: number, generations: number, pairs: number, young: number): SliceFish[] {
  const random = seededChance(seed);
  const fish: SliceFish[] = [];
  const rows: SliceFish[][] = [[]];
  const add = (row: SliceFish[], sireId: string | null, damId: string | null): void => {
    const id = `f${fish.length}`;
    const sex = row.length % 2 === 0 ? 'male' : 'female';
    const one: SliceFish = { id, tag: id, sex, sireId, damId };
    fish.push(one);
    row.push(one);
  };
  for (let i = 0; i < 2 * pairs; i++) add(rows[0]!, null, null);
  const pick = (row: readonly SliceFish[], sex: string): SliceFish => {
    const some = row.filter((one) => one.sex === sex);
    return some[Math.floor(random() * some.length)]!;
  };
  for (let g = 1; g < generations; g++) {
    const row: SliceFish[] = [];
    for (let p = 0; p < pairs; p++) {
      const back = random() < 0.2 && g > 1 ? g - 2 : g - 1;
      const sire = pick(rows[back]!, 'male');
      const dam = pick(rows[g - 1]!, 'female');
      for (let y = 0; y < young; y++) add(row, sire.id, dam.id);
    }
    rows.push(row);
  }
  return fish;
}

/** Layout time over sizes: whole pedigrees, nothing folded. One JSON object a line. */
export async function run(emit: (line: object) => void): Promise<void> {
  const shapes = [
    { generations: 8, pairs: 3, young: 6, foldedOnly: false },
    { generations: 10, pairs: 10, young: 10, foldedOnly: false },
    { generations: 20, pairs: 10, young: 5, foldedOnly: false },
    { generations: 10, pairs: 25, young: 12, foldedOnly: false },
    { generations: 10, pairs: 50, young: 20, foldedOnly: true },
  ];
  for (const { generations, pairs, young, foldedOnly } of shapes) {
    const slice = lineBred(7, generations, pairs, young);
    for (const fold of ['none', 'more than 5'] as const) {
      if (fold === 'none' && foldedOnly) continue;
      const times: number[] = [];
      let nodes = 0;
      let crossings = 0;
      for (let repeat = 0; repeat < 3; repeat++) {
        const start = performance.now();
        const scene = layoutPedigree(slice, {
          focusId: slice.at(-1)!.id,
          scope: 'all',
          foldSpawnsAbove: fold === 'none' ? Number.POSITIVE_INFINITY : 5,
        });
        times.push(performance.now() - start);
        nodes = scene.nodes.length;
        crossings = scene.crossings;
      }
      emit({
        bench: 'pedigree-layout',
        fish: slice.length,
        generations,
        folding: fold,
        nodes,
        crossings,
        milliseconds: Math.round(Math.min(...times) * 10) / 10,
      });
    }
  }
  await Promise.resolve();
}
