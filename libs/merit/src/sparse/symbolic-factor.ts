/** Where the entries of a factor stand, and in which order they are worked out; values do not matter yet. */
export interface SymbolicFactor {
  readonly size: number;
  /** `order[k]` is the equation eliminated k-th; `place[order[k]] = k`. */
  readonly order: Int32Array;
  readonly place: Int32Array;
  /** Blocks of neighbouring columns with the same rows below: block b has columns `first[b]` to `first[b + 1] - 1`. */
  readonly first: Int32Array;
  /** Rows of block b, its own columns first: `rows[rowStart[b]]` to `rows[rowStart[b + 1] - 1]`. */
  readonly rowStart: Int32Array;
  readonly rows: Int32Array;
  /** Block that holds the first row below block b, -1 for none; always a later one. */
  readonly parent: Int32Array;
  /** Entries of the matrix by place of elimination: of column k from `entryStart[k]`, its row and where its value is found. */
  readonly entryStart: Int32Array;
  readonly entryRow: Int32Array;
  readonly entryFrom: Int32Array;
  /** Entries of the factor and multiplications of one factorisation, for judging whether it is affordable. */
  readonly entries: number;
  readonly work: number;
}

/** The lower half of a symmetric pattern by columns. */
export interface LowerPattern {
  readonly size: number;
  readonly start: Int32Array;
  readonly row: Int32Array;
}

/**
 * Works out the pattern of the Cholesky factor for an order of elimination: elimination tree (Liu JWH 1990, SIAM J Matrix Anal
 * Appl 11:134-172), its postorder, and blocks of columns with the same pattern.
 *
 * Cost: entries of the factor.
 */
export function symbolicFactor(pattern: LowerPattern, wanted: Int32Array): SymbolicFactor {
  const tree = eliminationTree(pattern, wanted);
  const post = postorder(tree);
  const order = Int32Array.from(post, (k) => wanted[k]!);
  const place = new Int32Array(order.length);
  for (let k = 0; k < order.length; k++) place[order[k]!] = k;
  const entries = permuted(pattern, place);
  const renumbered = new Int32Array(order.length);
  for (let k = 0; k < post.length; k++) renumbered[post[k]!] = k;
  const parentOf = Int32Array.from(post, (k) => (tree[k]! < 0 ? -1 : renumbered[tree[k]!]!));
  return { size: pattern.size, order, place, ...entries, ...blocks(entries, parentOf) };
}

interface Entries {
  readonly entryStart: Int32Array;
  readonly entryRow: Int32Array;
  readonly entryFrom: Int32Array;
}

function permuted({ size, start, row }: LowerPattern, place: Int32Array): Entries {
  const entryStart = new Int32Array(size + 1);
  const at = (k: number, j: number) => Math.min(place[row[k]!]!, place[j]!);
  for (let j = 0; j < size; j++)
    for (let k = start[j]!; k < start[j + 1]!; k++) entryStart[at(k, j) + 1]!++;
  for (let j = 0; j < size; j++) entryStart[j + 1]! += entryStart[j]!;
  const next = entryStart.slice();
  const entryRow = new Int32Array(row.length);
  const entryFrom = new Int32Array(row.length);
  for (let j = 0; j < size; j++) {
    for (let k = start[j]!; k < start[j + 1]!; k++) {
      const to = next[at(k, j)]!++;
      entryRow[to] = Math.max(place[row[k]!]!, place[j]!);
      entryFrom[to] = k;
    }
  }
  return { entryStart, entryRow, entryFrom };
}

/** Parent of each place in the elimination tree: the row of the first entry below the diagonal of its column of the factor. */
function eliminationTree({ size, start, row }: LowerPattern, order: Int32Array): Int32Array {
  const place = new Int32Array(size);
  for (let k = 0; k < size; k++) place[order[k]!] = k;
  // Earlier neighbours of each place.
  const from = new Int32Array(size + 1);
  for (let j = 0; j < size; j++) {
    for (let k = start[j]!; k < start[j + 1]!; k++)
      if (row[k] !== j) from[Math.max(place[row[k]!]!, place[j]!) + 1]!++;
  }
  for (let k = 0; k < size; k++) from[k + 1]! += from[k]!;
  const earlier = new Int32Array(from[size]!);
  const next = from.slice();
  for (let j = 0; j < size; j++) {
    for (let k = start[j]!; k < start[j + 1]!; k++) {
      if (row[k] === j) continue;
      const [a, b] = [place[row[k]!]!, place[j]!];
      earlier[next[Math.max(a, b)]!++] = Math.min(a, b);
    }
  }
  const parent = new Int32Array(size).fill(-1);
  const ancestor = new Int32Array(size).fill(-1);
  for (let k = 0; k < size; k++) {
    for (let e = from[k]!; e < from[k + 1]!; e++) {
      let i = earlier[e]!;
      while (i !== -1 && i < k) {
        const above = ancestor[i]!;
        ancestor[i] = k;
        if (above === -1) parent[i] = k;
        i = above;
      }
    }
  }
  return parent;
}

/** Children before their parents, each subtree in one piece. */
function postorder(parent: Int32Array): Int32Array {
  const size = parent.length;
  const child = new Int32Array(size).fill(-1);
  const sibling = new Int32Array(size).fill(-1);
  for (let k = size - 1; k >= 0; k--) {
    const p = parent[k]!;
    if (p < 0) continue;
    sibling[k] = child[p]!;
    child[p] = k;
  }
  const order = new Int32Array(size);
  const stack: number[] = [];
  let count = 0;
  for (let root = 0; root < size; root++) {
    if (parent[root]! >= 0) continue;
    stack.push(root);
    while (stack.length > 0) {
      const k = stack.at(-1)!;
      const next = child[k]!;
      if (next >= 0) {
        child[k] = sibling[next]!;
        stack.push(next);
      } else {
        stack.pop();
        order[count++] = k;
      }
    }
  }
  return order;
}

function blocks(entries: Entries, parentOf: Int32Array) {
  const size = parentOf.length;
  const first: number[] = [];
  const rowStart: number[] = [0];
  let rows = new Int32Array(1 << 12);
  const blockOf = new Int32Array(size);
  const columns = columnPatterns(entries, parentOf);
  let previousSize = -1;
  let used = 0;
  let [total, work] = [0, 0];
  for (let j = 0; j < size; j++) {
    const pattern = columns(j);
    const count = pattern.length + 1;
    total += count;
    work += count * count;
    const joins = j > 0 && parentOf[j - 1] === j && previousSize === count + 1;
    previousSize = count;
    if (!joins) {
      first.push(j);
      if (used + count > rows.length) rows = enlarged(rows, used + count);
      rows[used] = j;
      rows.set(pattern, used + 1);
      used += count;
      rowStart.push(used);
    }
    blockOf[j] = first.length - 1;
  }
  first.push(size);
  const parent = Int32Array.from({ length: first.length - 1 }, (_, b) => {
    const above = parentOf[first[b + 1]! - 1]!;
    return above < 0 ? -1 : blockOf[above]!;
  });
  return {
    first: Int32Array.from(first),
    rowStart: Int32Array.from(rowStart),
    rows: rows.slice(0, used),
    parent,
    entries: total,
    work,
  };
}

function enlarged(array: Int32Array, least: number): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(Math.max(least, 2 * array.length));
  larger.set(array);
  return larger;
}

/** Rows below the diagonal of each column of the factor, ascending; to be asked for in order. */
function columnPatterns(
  { entryStart, entryRow }: Entries,
  parentOf: Int32Array,
): (column: number) => Int32Array {
  const size = parentOf.length;
  const mark = new Int32Array(size).fill(-1);
  const waiting: (Int32Array[] | undefined)[] = new Array<Int32Array[] | undefined>(size);
  let list = new Int32Array(1024);
  return (j) => {
    let count = 0;
    mark[j] = j;
    const take = (i: number): void => {
      if (mark[i] === j) return;
      mark[i] = j;
      if (count === list.length) list = enlarged(list, count + 1);
      list[count++] = i;
    };
    for (let e = entryStart[j]!; e < entryStart[j + 1]!; e++) take(entryRow[e]!);
    for (const below of waiting[j] ?? []) for (const i of below) take(i);
    waiting[j] = undefined;
    const pattern = list.slice(0, count).sort();
    const above = parentOf[j]!;
    if (above >= 0) (waiting[above] ??= []).push(pattern);
    return pattern;
  };
}
