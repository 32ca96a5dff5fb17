/** A place in a class, with the points where the show gives some. */
export function placingText({
  placing,
  points,
}: {
  readonly placing: number | null;
  readonly points: number | null;
}): string {
  const place = placing === null ? 'not placed' : `place ${placing}`;
  return points === null ? place : `${place}, ${points} points`;
}
