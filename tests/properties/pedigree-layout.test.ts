import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  layoutPedigree,
  traceHighlight,
  type PedigreeScene,
  type SliceFish,
} from '@linewright/pedigree-layout';

const SEED = 20_260_314;
const settings = { seed: SEED, numRuns: 300 };

/** Random looped pedigrees: every fish picks its parents among the fish before it, often the same pair as its elder. */
const pedigrees = fc
  .array(
    fc.record({
      sire: fc.double({ min: 0, max: 1, noNaN: true }),
      dam: fc.double({ min: 0, max: 1, noNaN: true }),
      kind: fc.constantFrom('sib', 'sib', 'own', 'own', 'founder', 'half-known'),
      recent: fc.boolean(),
    }),
    { minLength: 1, maxLength: 60 },
  )
  .map((draws): SliceFish[] => {
    const fish: SliceFish[] = [];
    draws.forEach((draw, i) => {
      const from = draw.recent ? Math.max(0, i - 8) : 0;
      const choose = (share: number): string | null =>
        i === 0 ? null : fish[Math.min(i - 1, from + Math.floor(share * (i - from)))]!.id;
      const elder = fish[i - 1];
      let sireId = choose(draw.sire);
      let damId = choose(draw.dam);
      if (draw.kind === 'founder') sireId = damId = null;
      if (draw.kind === 'half-known') damId = null;
      if (draw.kind === 'sib' && elder !== undefined) ({ sireId, damId } = elder);
      if (sireId === damId) damId = null;
      fish.push({ id: `i${i}`, tag: `T${i}`, sex: 'unknown', sireId, damId });
    });
    return fish;
  });

const layAll = (slice: readonly SliceFish[], more: object = {}): PedigreeScene =>
  layoutPedigree(slice, {
    focusId: slice.at(-1)!.id,
    scope: 'all',
    foldSpawnsAbove: Number.POSITIVE_INFINITY,
    ...more,
  });

/** The scene with every id taken out, so that scenes of relabelled pedigrees can be compared. */
const shape = (scene: PedigreeScene): unknown => ({
  nodes: scene.nodes.map((node) => [node.layer, node.order, node.x, node.y]),
  matings: scene.matings.map((mating) => [mating.x, mating.y, mating.related]),
  links: scene.links.map((link) => link.points),
  bounds: scene.bounds,
});

describe(`layout of random looped pedigrees (seed ${SEED})`, () => {
  it('draws each fish once, by itself or in one fold', () => {
    fc.assert(
      fc.property(pedigrees, fc.integer({ min: 1, max: 6 }), (slice, foldSpawnsAbove) => {
        const scene = layAll(slice, { foldSpawnsAbove });
        const drawn = scene.nodes.flatMap((node) =>
          node.kind === 'fold' ? node.memberIds : [node.id],
        );
        expect([...drawn].sort()).toEqual(slice.map((fish) => fish.id).sort());
      }),
      settings,
    );
  });

  it('puts parents above their young, whole boxes apart', () => {
    fc.assert(
      fc.property(pedigrees, (slice) => {
        const scene = layAll(slice);
        const node = new Map(scene.nodes.map((one) => [one.id, one] as const));
        for (const fish of slice) {
          for (const parent of [fish.sireId, fish.damId]) {
            if (parent === null) continue;
            const above = node.get(parent)!;
            const below = node.get(fish.id)!;
            expect(above.y + above.height / 2).toBeLessThan(below.y - below.height / 2);
          }
        }
      }),
      settings,
    );
  });

  it('lets no two boxes overlap, in either orientation', () => {
    fc.assert(
      fc.property(pedigrees, fc.constantFrom('down', 'right'), (slice, orientation) => {
        const { nodes } = layAll(slice, { orientation });
        for (let i = 0; i < nodes.length; i++) {
          for (let j = 0; j < i; j++) {
            const a = nodes[i]!;
            const b = nodes[j]!;
            const apart =
              Math.abs(a.x - b.x) >= (a.width + b.width) / 2 - 1e-6 ||
              Math.abs(a.y - b.y) >= (a.height + b.height) / 2 - 1e-6;
            expect(apart).toBe(true);
          }
        }
      }),
      settings,
    );
  });

  it('runs no line through the box of a fish', () => {
    fc.assert(
      fc.property(pedigrees, (slice) => {
        const scene = layAll(slice);
        for (const link of scene.links) {
          for (let i = 0; i + 1 < link.points.length; i++) {
            const p = link.points[i]!;
            const q = link.points[i + 1]!;
            for (const node of scene.nodes) {
              const clear =
                Math.max(p.x, q.x) <= node.x - node.width / 2 + 1e-6 ||
                Math.min(p.x, q.x) >= node.x + node.width / 2 - 1e-6 ||
                Math.max(p.y, q.y) <= node.y - node.height / 2 + 1e-6 ||
                Math.min(p.y, q.y) >= node.y + node.height / 2 - 1e-6;
              // Mates side by side are joined at the height of their symbols, from edge to edge.
              const between = p.y === q.y && Math.abs(p.y - node.symbol.y) < 1e-6;
              expect(clear || between).toBe(true);
            }
          }
        }
      }),
      { ...settings, numRuns: 150 },
    );
  });

  it('joins every line end to end, at right angles', () => {
    fc.assert(
      fc.property(pedigrees, (slice) => {
        const scene = layAll(slice);
        const node = new Map(scene.nodes.map((one) => [one.id, one] as const));
        const mating = new Map(scene.matings.map((one) => [one.id, one] as const));
        for (const link of scene.links) {
          const pair = mating.get(link.matingId)!;
          const one = node.get(link.nodeId)!;
          const [atNode, atPair] =
            link.kind === 'parent'
              ? [link.points[0]!, link.points.at(-1)!]
              : [link.points.at(-1)!, link.points[0]!];
          expect(atPair.x).toBeCloseTo(pair.x, 6);
          expect(atPair.y).toBeCloseTo(pair.y, 6);
          expect(Math.abs(atNode.x - one.x)).toBeLessThanOrEqual(one.width / 2);
          expect(Math.abs(atNode.y - one.y)).toBeLessThanOrEqual(one.height / 2 + 1e-6);
          link.points.slice(1).forEach((q, i) => {
            const p = link.points[i]!;
            expect(Math.min(Math.abs(p.x - q.x), Math.abs(p.y - q.y))).toBeLessThan(1e-6);
          });
        }
      }),
      settings,
    );
  });

  it('gives the same scene again, and for rows in another order', () => {
    fc.assert(
      fc.property(pedigrees, (slice) => {
        const scene = layAll(slice);
        expect(layAll(slice)).toEqual(scene);
        expect(layAll([...slice].reverse(), { focusId: slice.at(-1)!.id })).toEqual(scene);
      }),
      settings,
    );
  });

  it('does not depend on the ids', () => {
    fc.assert(
      fc.property(pedigrees, (slice) => {
        const other = (id: string | null): string | null =>
          id === null ? null : `zz${9999 - Number(id.slice(1))}`;
        const relabelled = slice.map((fish) => ({
          ...fish,
          id: other(fish.id)!,
          sireId: other(fish.sireId),
          damId: other(fish.damId),
        }));
        expect(shape(layAll(relabelled))).toEqual(shape(layAll(slice)));
      }),
      settings,
    );
  });

  it('finds links for every step from a fish to its parent', () => {
    fc.assert(
      fc.property(pedigrees, (slice) => {
        const scene = layAll(slice);
        for (const fish of slice) {
          const path = [fish.sireId, fish.id, fish.damId].filter((id) => id !== null);
          const found = traceHighlight(scene, path);
          expect(found.missing).toEqual([]);
          expect(found.steps).toHaveLength(path.length - 1);
        }
      }),
      settings,
    );
  });
});
