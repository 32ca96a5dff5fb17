import { percent } from './figures.js';

/** What a list of the largest parts of F leaves unlisted; null when it lists all. */
export function restWords(
  listed: readonly { readonly contribution: number }[],
  count: number,
  whole: number,
  what: string,
): string | null {
  const others = count - listed.length;
  if (others <= 0) return null;
  const rest = whole - listed.reduce((sum, { contribution }) => sum + contribution, 0);
  return `The ${listed.length} of ${count} ${what} that add most are listed. The other ${others} add ${percent(Math.max(0, rest), 3)} together.`;
}

/** How likely everything is that a list of the likeliest does not name; null when that is next to nothing. */
export function otherChances(listed: readonly number[]): string | null {
  const rest = 1 - listed.reduce((sum, one) => sum + one, 0);
  return listed.length === 0 || rest < 0.0005 ? null : `All others together: ${percent(rest, 1)}.`;
}
