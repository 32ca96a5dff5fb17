import type { Families } from './families.js';

/** What stands at a place in a row: a fish or fold, a mating, or a line that only passes through. */
export interface Vertex {
  readonly kind: 'node' | 'mating' | 'pass';
  /** Index of the node or mating; for a passing line, the node that the line comes from. */
  readonly ref: number;
  readonly row: number;
}

/**
 * The drawing as rows of vertices, edges only between neighbouring rows. Even rows hold fish, odd rows the matings of the fish row
 * above. A parent whose mating stands further down gets one line of passing vertices, shared by all its later matings.
 */
export interface Rows {
  readonly vertices: readonly Vertex[];
  /** Vertices of each row, left to right; ordering permutes these. */
  readonly order: number[][];
  readonly up: readonly (readonly number[])[];
  readonly down: readonly (readonly number[])[];
  readonly nodeVertex: Int32Array;
  readonly matingVertex: Int32Array;
  /** For each mating, the vertices in the fish row above it that its parents' lines come from; -1 for no parent. */
  readonly sirePort: Int32Array;
  readonly damPort: Int32Array;
}

export function buildRows(families: Families, level: Int32Array): Rows {
  const vertices: Vertex[] = [];
  const order: number[][] = [];
  const up: number[][] = [];
  const down: number[][] = [];
  const add = (kind: Vertex['kind'], ref: number, row: number): number => {
    while (order.length <= row) order.push([]);
    order[row]!.push(vertices.length);
    up.push([]);
    down.push([]);
    return vertices.push({ kind, ref, row }) - 1;
  };
  const join = (from: number, to: number): void => {
    down[from]!.push(to);
    up[to]!.push(from);
  };
  const nodeVertex = Int32Array.from(families.nodes, (_, i) => add('node', i, 2 * level[i]!));
  const matingVertex = Int32Array.from(families.matings, (mating, m) =>
    add('mating', m, 2 * level[mating.offspring[0]!]! - 1),
  );
  const sirePort = new Int32Array(families.matings.length).fill(-1);
  const damPort = new Int32Array(families.matings.length).fill(-1);
  families.matings.forEach((mating, m) => {
    for (const child of mating.offspring) join(matingVertex[m]!, nodeVertex[child]!);
  });
  families.nodes.forEach((_, i) => {
    const byRow = [...families.matingsOf[i]!].sort(
      (a, b) => vertices[matingVertex[a]!]!.row - vertices[matingVertex[b]!]!.row || a - b,
    );
    let last = nodeVertex[i]!;
    for (const m of byRow) {
      const target = matingVertex[m]!;
      while (vertices[last]!.row < vertices[target]!.row - 1) {
        const pass = add('pass', i, vertices[last]!.row + 1);
        join(last, pass);
        last = pass;
      }
      join(last, target);
      if (families.matings[m]!.sire === i) sirePort[m] = last;
      else damPort[m] = last;
    }
  });
  return { vertices, order, up, down, nodeVertex, matingVertex, sirePort, damPort };
}
