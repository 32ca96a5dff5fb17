import { describe, expect, it } from 'vitest';
import { LayoutError } from './layout-error.js';
import { layoutPedigree } from './layout-pedigree.js';
import { matingIdOf, type PedigreeScene, type SceneFish } from './scene.js';
import { withPlannedBrood, type SliceFish } from './slice.js';

const fish = (
  id: string,
  sireId: string | null = null,
  damId: string | null = null,
  more: Partial<SliceFish> = {},
): SliceFish => ({ id, tag: id.toUpperCase(), sex: 'unknown', sireId, damId, ...more });

/** Founders a, b; full sibs c, d; their brood e; e back to its grandsire a. */
const backcross = [
  fish('a', null, null, { sex: 'male' }),
  fish('b', null, null, { sex: 'female' }),
  fish('c', 'a', 'b', { sex: 'male' }),
  fish('d', 'a', 'b', { sex: 'female' }),
  fish('e', 'c', 'd', { sex: 'female' }),
  fish('f', 'a', 'e'),
];

const find = (scene: PedigreeScene, id: string): SceneFish => {
  const node = scene.nodes.find((one) => one.id === id);
  if (node?.kind !== 'fish') throw new Error(`${id} is not drawn as a fish`);
  return node;
};

const codeOf = (work: () => unknown): string => {
  try {
    work();
  } catch (error) {
    if (error instanceof LayoutError) return error.code;
    throw error;
  }
  return 'no error';
};

describe('layoutPedigree', () => {
  it('draws a fish on two lines of descent once and puts it above all its young', () => {
    const scene = layoutPedigree(backcross, { focusId: 'f' });
    expect(scene.nodes.map((node) => node.id).sort()).toEqual(['a', 'b', 'c', 'd', 'e', 'f']);
    expect(['a', 'b', 'c', 'd', 'e', 'f'].map((id) => find(scene, id).layer)).toEqual([
      0, 0, 1, 1, 2, 3,
    ]);
  });

  it('marks matings of relatives, and only those', () => {
    const scene = layoutPedigree(backcross, { focusId: 'f' });
    const related = scene.matings.filter((mating) => mating.related).map((mating) => mating.id);
    expect(related.sort()).toEqual([matingIdOf('a', 'e'), matingIdOf('c', 'd')].sort());
  });

  it('believes a stated relationship that the slice cannot show', () => {
    const slice = [fish('a'), fish('b'), fish('c', 'a', 'b', { parentsRelated: true })];
    expect(layoutPedigree(slice, { focusId: 'c' }).matings[0]?.related).toBe(true);
  });

  it('joins mates that stand side by side at the height of their symbols', () => {
    const scene = layoutPedigree(backcross.slice(0, 4), { focusId: 'c', scope: 'all' });
    const mating = scene.matings[0]!;
    expect(mating.y).toBeCloseTo(find(scene, 'a').symbol.y);
    expect(mating.x).toBeCloseTo((find(scene, 'a').x + find(scene, 'b').x) / 2);
  });

  it('lets a late founder stand beside its mate', () => {
    const slice = [...backcross, fish('out'), fish('g', 'out', 'f')];
    const scene = layoutPedigree(slice, { focusId: 'g' });
    expect(find(scene, 'out').layer).toBe(find(scene, 'f').layer);
  });

  it('lets a branch that joins late slide down to its mate', () => {
    const branch = [fish('p'), fish('q'), fish('r', 'p', 'q'), fish('s', 'p', 'q')];
    const slice = [...backcross, ...branch, fish('t', 'r', 's'), fish('g', 't', 'f')];
    const scene = layoutPedigree(slice, { focusId: 'g' });
    expect(find(scene, 't').layer).toBe(find(scene, 'f').layer);
    expect(find(scene, 'r').layer).toBe(find(scene, 't').layer - 1);
    expect(find(scene, 'p').layer).toBe(find(scene, 'r').layer - 1);
  });

  it('leaves out fish that are neither ancestors nor descendants of the focus, and says how many', () => {
    const slice = [...backcross, fish('x'), fish('y', 'x', null)];
    const scene = layoutPedigree(slice, { focusId: 'e' });
    expect(scene.nodes.map((node) => node.id)).not.toContain('y');
    expect(scene.leftOut).toBe(2);
    expect(layoutPedigree(slice, { focusId: 'e', scope: 'all' }).nodes).toHaveLength(8);
  });

  it('limits the generations shown', () => {
    const scene = layoutPedigree(backcross, { focusId: 'e', maxAncestorGenerations: 1 });
    expect(scene.nodes.map((node) => node.id).sort()).toEqual(['a', 'c', 'd', 'e', 'f']);
  });

  it('draws a single known parent', () => {
    const scene = layoutPedigree([fish('a'), fish('b', 'a', null)], { focusId: 'b' });
    expect(scene.matings[0]).toMatchObject({ sireId: 'a', damId: null, related: false });
  });

  it('turns the drawing on its side', () => {
    const scene = layoutPedigree(backcross, { focusId: 'f', orientation: 'right' });
    expect(find(scene, 'f').x).toBeGreaterThan(find(scene, 'e').x + find(scene, 'e').width);
  });

  it('freezes the scene through and through', () => {
    const scene = layoutPedigree(backcross, { focusId: 'f' });
    expect(Object.isFrozen(scene)).toBe(true);
    expect(Object.isFrozen(scene.links[0]!.points[0])).toBe(true);
  });
});

describe('folding', () => {
  const brood = Array.from({ length: 9 }, (_, i) =>
    fish(`n${i + 1}`, 'a', 'b', { sex: i < 4 ? 'male' : 'female', spawnId: 's' }),
  );
  const slice = [fish('a'), fish('b'), ...brood, fish('m'), fish('z', 'n1', 'm')];

  it('folds full sibs without young and keeps the others', () => {
    const scene = layoutPedigree(slice, { focusId: 'a', foldSpawnsAbove: 4 });
    const fold = scene.nodes.find((node) => node.kind === 'fold');
    expect(fold).toMatchObject({ count: 8, males: 3, females: 5, spawnId: 's' });
    expect(find(scene, 'n1').kind).toBe('fish');
  });

  it('unfolds on request, keeps what must be kept and never folds the focus', () => {
    const folded = layoutPedigree(slice, { focusId: 'n2', scope: 'all', keepIds: ['n9'] });
    const fold = folded.nodes.find((node) => node.kind === 'fold')!;
    expect(find(folded, 'n2').isFocus).toBe(true);
    expect(find(folded, 'n9').tag).toBe('N9');
    const options = { focusId: 'n2', scope: 'all', expandedFolds: [fold.id] } as const;
    expect(layoutPedigree(slice, { ...options, keepIds: ['n9'] }).nodes).toHaveLength(13);
  });

  it('keeps two spawns of one pair apart', () => {
    const second = brood.map((one) => ({ ...one, id: `${one.id}b`, spawnId: 't' }));
    const scene = layoutPedigree([...slice, ...second], { focusId: 'a' });
    const folds = scene.nodes.filter((node) => node.kind === 'fold');
    expect(new Set(folds.map((fold) => fold.kind === 'fold' && fold.count))).toEqual(
      new Set([8, 9]),
    );
  });
});

describe('a planned brood', () => {
  it('is drawn with its parents and their ancestors', () => {
    const slice = withPlannedBrood([...backcross, fish('o')], {
      sireId: 'o',
      damId: 'f',
      label: 'planned',
    });
    const scene = layoutPedigree(slice, { focusId: 'b' });
    const planned = scene.nodes.find((node) => node.kind === 'fish' && node.planned);
    expect(planned?.layer).toBe(find(scene, 'f').layer + 1);
    expect(scene.matings.find((mating) => mating.planned)?.related).toBe(false);
    expect(find(scene, 'o').tag).toBe('O');
  });

  it('refuses parents that are not there or are one fish', () => {
    const planned = { label: 'planned' };
    expect(
      codeOf(() => withPlannedBrood(backcross, { ...planned, sireId: 'a', damId: 'no' })),
    ).toBe('LAYOUT_UNKNOWN_PARENT');
    expect(codeOf(() => withPlannedBrood(backcross, { ...planned, sireId: 'a', damId: 'a' }))).toBe(
      'LAYOUT_SAME_PARENTS',
    );
  });
});

describe('bad slices', () => {
  it('names each kind of fault', () => {
    const lay = (slice: readonly SliceFish[], focusId = 'a') =>
      codeOf(() => layoutPedigree(slice, { focusId }));
    expect(lay([fish('a'), fish('a')])).toBe('LAYOUT_DUPLICATE_ID');
    expect(lay([fish('a')], 'z')).toBe('LAYOUT_UNKNOWN_FOCUS');
    expect(lay([fish('a'), fish('b', 'a', 'a')])).toBe('LAYOUT_SAME_PARENTS');
    expect(lay([fish('a', 'c', null), fish('b', 'a', null), fish('c', 'b', null)])).toBe(
      'LAYOUT_CYCLE',
    );
  });

  it('spells a cycle out', () => {
    const slice = [fish('a', 'c', null), fish('b', 'a', null), fish('c', 'b', null)];
    expect(() => layoutPedigree(slice, { focusId: 'a' })).toThrow('a <- c <- b <- a');
  });
});
