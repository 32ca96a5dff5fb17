/** A horizontal run of one line in the channel between two rows of fish. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/**
 * Gives each run a track so that no two on one track come closer than `clearance` (left-edge channel routing, Hashimoto & Stevens
 * 1971; basis: from memory). `first` says which runs get the tracks nearest the top. Returns a track a run; tracks count from 0.
 */
export function assignTracks(
  runs: readonly Run[],
  first: 'shortest' | 'longest',
  clearance: number,
): { readonly track: readonly number[]; readonly count: number } {
  const sign = first === 'shortest' ? 1 : -1;
  const order = runs
    .map((_, i) => i)
    .sort((a, b) => sign * (length(runs[a]!) - length(runs[b]!)) || a - b);
  const tracks: Run[][] = [];
  const track = new Array<number>(runs.length).fill(0);
  for (const i of order) {
    const run = runs[i]!;
    const free = (taken: readonly Run[]): boolean =>
      taken.every((other) => run.from >= other.to + clearance || run.to <= other.from - clearance);
    let at = tracks.findIndex(free);
    if (at < 0) at = tracks.push([]) - 1;
    tracks[at]!.push(run);
    track[i] = at;
  }
  return { track, count: tracks.length };
}

function length(run: Run): number {
  return run.to - run.from;
}
