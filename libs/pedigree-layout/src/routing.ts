import type { Families } from './families.js';
import type { Rows } from './rows.js';
import { assignTracks, type Run } from './tracks.js';

/** Measures along the axis of generations, and of the symbol. */
export interface RouteSpacing {
  readonly nodeAlong: number;
  readonly symbolSize: number;
  readonly trackGap: number;
  readonly channelPadding: number;
}

/** A place before orientation is applied: `across` the row, `along` the generations. */
export interface Spot {
  readonly across: number;
  readonly along: number;
}

export interface RoutedMating {
  readonly spot: Spot;
  readonly line: readonly Spot[];
  readonly sirePath: readonly Spot[];
  readonly damPath: readonly Spot[];
  /** One path a young, in the order of the mating's offspring. */
  readonly offspringPaths: readonly (readonly Spot[])[];
}

export interface Routes {
  readonly matings: readonly RoutedMating[];
  /** Where each row of fish begins along the axis of generations. */
  readonly rowStart: readonly number[];
}

/** Least sideways distance between two lines that run side by side. */
const CLEARANCE = 6;
const SAME = 0.5;

interface Channel {
  readonly matings: readonly number[];
  /** Passing vertices of the row below whose line comes through this channel. */
  readonly passes: readonly number[];
  readonly relationTrack: ReadonlyMap<number, number>;
  readonly passTrack: ReadonlyMap<number, number>;
  readonly sibshipTrack: ReadonlyMap<number, number>;
  readonly relationTracks: number;
  readonly sibshipTracks: number;
}

/**
 * Right-angled lines through the channels between the rows. Mates that stand side by side are joined at the height of their symbols;
 * others by a bracket in the channel below the younger. Every horizontal run gets a track of its own where runs would overlap.
 *
 * Cost: O(lines · tracks) a channel.
 */
export function routeLines(
  rows: Rows,
  families: Families,
  across: Float64Array,
  spacing: RouteSpacing,
): Routes {
  const place = new Int32Array(rows.vertices.length);
  for (const row of rows.order) row.forEach((v, i) => (place[v] = i));
  const sideBySide = families.matings.map((_, m) => standSideBySide(rows, place, m));
  const matingAcross = chooseMatingPlaces(rows, families, across, sideBySide);
  const channels = buildChannels(rows, families, across, matingAcross, sideBySide);
  const rowStart = [0];
  for (const channel of channels) {
    const tracks = channel.relationTracks + channel.sibshipTracks;
    const height = 2 * spacing.channelPadding + Math.max(1, tracks) * spacing.trackGap;
    rowStart.push(rowStart.at(-1)! + spacing.nodeAlong + height);
  }
  const context: Context = { rows, across, spacing, channels, rowStart, matingAcross, sideBySide };
  return {
    rowStart,
    matings: families.matings.map((mating, m) => routeMating(context, mating, m)),
  };
}

function standSideBySide(rows: Rows, place: Int32Array, m: number): boolean {
  const sire = rows.sirePort[m]!;
  const dam = rows.damPort[m]!;
  if (sire < 0 || dam < 0) return false;
  const nodes = rows.vertices[sire]!.kind === 'node' && rows.vertices[dam]!.kind === 'node';
  return nodes && Math.abs(place[sire]! - place[dam]!) === 1;
}

/** The row of fish above a mating. */
function fishRow(rows: Rows, m: number): number {
  return (rows.vertices[rows.matingVertex[m]!]!.row - 1) / 2;
}

/** Where lines of descent drop: halfway between mates side by side, else near the young and clear of other vertical lines. */
function chooseMatingPlaces(
  rows: Rows,
  families: Families,
  across: Float64Array,
  sideBySide: readonly boolean[],
): Float64Array {
  const chosen = new Float64Array(families.matings.length);
  const byChannel = new Map<number, number[]>();
  families.matings.forEach((_, m) => {
    const k = fishRow(rows, m);
    byChannel.set(k, [...(byChannel.get(k) ?? []), m]);
  });
  for (const [k, matings] of byChannel) {
    const above = rows.order[2 * k]!.filter((v) => rows.down[v]!.length > 0);
    const below = rows.order[2 * k + 2]!;
    const drops: number[] = [];
    const byPlace = [...matings].sort(
      (a, b) => Number(sideBySide[b]) - Number(sideBySide[a]) || a - b,
    );
    for (const m of byPlace) {
      const own = new Set(families.matings[m]!.offspring.map((i) => rows.nodeVertex[i]!));
      const taken = [
        ...above.map((v) => across[v]!),
        ...below.filter((v) => !own.has(v)).map((v) => across[v]!),
        ...drops,
      ];
      const sire = rows.sirePort[m]!;
      const dam = rows.damPort[m]!;
      const onlyChild = own.size === 1 ? across[[...own][0]!]! : null;
      const wanted = sideBySide[m]
        ? (across[sire]! + across[dam]!) / 2
        : (onlyChild ?? across[rows.matingVertex[m]!]!);
      chosen[m] = clearPlace(wanted, taken, sideBySide[m] ? 4 : 60);
      drops.push(chosen[m]!);
    }
  }
  return chosen;
}

function clearPlace(wanted: number, taken: readonly number[], reach: number): number {
  for (let shift = 0; shift <= reach; shift += 2) {
    for (const candidate of [wanted - shift, wanted + shift]) {
      if (taken.every((other) => Math.abs(other - candidate) >= CLEARANCE)) return candidate;
    }
  }
  return wanted;
}

function buildChannels(
  rows: Rows,
  families: Families,
  across: Float64Array,
  matingAcross: Float64Array,
  sideBySide: readonly boolean[],
): Channel[] {
  const fishRows = (rows.order.length + 1) / 2;
  const channels: Channel[] = [];
  for (let k = 0; k + 1 < fishRows; k++) {
    const matings = rows.order[2 * k + 1]!.filter((v) => rows.vertices[v]!.kind === 'mating').map(
      (v) => rows.vertices[v]!.ref,
    );
    const passes = rows.order[2 * k + 2]!.filter((v) => rows.vertices[v]!.kind === 'pass');
    const brackets = matings.filter((m) => !sideBySide[m]);
    const jogs = passes.filter((v) => Math.abs(across[v]! - across[lineSource(rows, v)]!) > SAME);
    const relationRuns = [
      ...brackets.map((m) => span([matingAcross[m]!, ...portPlaces(rows, across, m)])),
      ...jogs.map((v) => span([across[v]!, across[lineSource(rows, v)]!])),
    ];
    const combs = matings.filter((m) => !dropsStraight(rows, families, across, matingAcross, m));
    const combRuns = combs.map((m) =>
      span([
        matingAcross[m]!,
        ...families.matings[m]!.offspring.map((i) => across[rows.nodeVertex[i]!]!),
      ]),
    );
    const relation = assignTracks(relationRuns, 'shortest', 2 * CLEARANCE);
    const comb = assignTracks(combRuns, 'longest', 2 * CLEARANCE);
    channels.push({
      matings,
      passes,
      relationTrack: new Map(brackets.map((m, i) => [m, relation.track[i]!] as const)),
      passTrack: new Map(jogs.map((v, i) => [v, relation.track[brackets.length + i]!] as const)),
      sibshipTrack: new Map(combs.map((m, i) => [m, comb.track[i]!] as const)),
      relationTracks: relation.count,
      sibshipTracks: comb.count,
    });
  }
  return channels;
}

/** The vertex in the fish row above that a passing line comes from. */
function lineSource(rows: Rows, pass: number): number {
  return rows.up[rows.up[pass]![0]!]![0]!;
}

function portPlaces(rows: Rows, across: Float64Array, m: number): number[] {
  return [rows.sirePort[m]!, rows.damPort[m]!].filter((v) => v >= 0).map((v) => across[v]!);
}

function span(places: readonly number[]): Run {
  return {
    from: places.reduce((a, b) => Math.min(a, b)),
    to: places.reduce((a, b) => Math.max(a, b)),
  };
}

function dropsStraight(
  rows: Rows,
  families: Families,
  across: Float64Array,
  matingAcross: Float64Array,
  m: number,
): boolean {
  const young = families.matings[m]!.offspring;
  return (
    young.length === 1 && Math.abs(across[rows.nodeVertex[young[0]!]!]! - matingAcross[m]!) <= SAME
  );
}

interface Context {
  readonly rows: Rows;
  readonly across: Float64Array;
  readonly spacing: RouteSpacing;
  readonly channels: readonly Channel[];
  readonly rowStart: readonly number[];
  readonly matingAcross: Float64Array;
  readonly sideBySide: readonly boolean[];
}

function relationAlong(context: Context, k: number, track: number): number {
  const { rowStart, spacing } = context;
  return (
    rowStart[k]! + spacing.nodeAlong + spacing.channelPadding + (track + 0.5) * spacing.trackGap
  );
}

function routeMating(
  context: Context,
  mating: { readonly offspring: readonly number[] },
  m: number,
): RoutedMating {
  const { rows, across, spacing, channels, rowStart } = context;
  const k = fishRow(rows, m);
  const channel = channels[k]!;
  const level = context.sideBySide[m]
    ? rowStart[k]! + spacing.symbolSize / 2
    : relationAlong(context, k, channel.relationTrack.get(m)!);
  const spot: Spot = { across: context.matingAcross[m]!, along: level };
  const sirePath = parentPath(context, m, rows.sirePort[m]!, spot);
  const damPath = parentPath(context, m, rows.damPort[m]!, spot);
  const ends = [sirePath, damPath].filter((path) => path.length > 0);
  const line = ends.length === 0 ? [] : relationshipLine(context, m, spot);
  const track = channel.sibshipTrack.get(m);
  const offspringPaths = mating.offspring.map((i) => {
    const end: Spot = { across: across[rows.nodeVertex[i]!]!, along: rowStart[k + 1]! };
    if (track === undefined) return [spot, { across: spot.across, along: end.along }];
    const along = relationAlong(context, k, channel.relationTracks + track);
    return tidy([spot, { across: spot.across, along }, { across: end.across, along }, end]);
  });
  return { spot, line, sirePath, damPath, offspringPaths };
}

function relationshipLine(context: Context, m: number, spot: Spot): Spot[] {
  const { rows, across, spacing } = context;
  const inset = context.sideBySide[m] ? spacing.symbolSize / 2 : 0;
  const run = span([spot.across, ...portPlaces(rows, across, m)]);
  if (run.to - run.from - 2 * inset <= SAME) return [];
  return [
    { across: run.from + inset, along: spot.along },
    { across: run.to - inset, along: spot.along },
  ];
}

function parentPath(context: Context, m: number, port: number, spot: Spot): Spot[] {
  if (port < 0) return [];
  const { rows, across, spacing, rowStart } = context;
  if (context.sideBySide[m]) {
    const towards = Math.sign(spot.across - across[port]!);
    const edge = across[port]! + (towards * spacing.symbolSize) / 2;
    return [{ across: edge, along: spot.along }, spot];
  }
  const backwards: Spot[] = [spot, { across: across[port]!, along: spot.along }];
  let v = port;
  while (rows.vertices[v]!.kind === 'pass') {
    const source = lineSource(rows, v);
    const k = rows.vertices[source]!.row / 2;
    const track = context.channels[k]!.passTrack.get(v);
    if (track !== undefined) {
      const along = relationAlong(context, k, track);
      backwards.push({ across: across[v]!, along }, { across: across[source]!, along });
    }
    v = source;
  }
  const row = rows.vertices[v]!.row / 2;
  backwards.push({ across: across[v]!, along: rowStart[row]! + spacing.nodeAlong });
  return tidy(backwards.reverse());
}

/** Drops points that repeat or lie on the way between their neighbours. */
function tidy(path: readonly Spot[]): Spot[] {
  const kept: Spot[] = [];
  for (const spot of path) {
    const last = kept.at(-1);
    if (last !== undefined && same(last.across, spot.across) && same(last.along, spot.along)) {
      continue;
    }
    const before = kept.at(-2);
    if (before !== undefined && last !== undefined) {
      const upright = same(before.across, last.across) && same(last.across, spot.across);
      const level = same(before.along, last.along) && same(last.along, spot.along);
      if (upright || level) kept.pop();
    }
    kept.push(spot);
  }
  return kept;
}

function same(a: number, b: number): boolean {
  return Math.abs(a - b) < 1e-6;
}
