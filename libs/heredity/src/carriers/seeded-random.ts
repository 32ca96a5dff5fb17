/** Uniform numbers in [0, 1) from a seed: 32-bit xorshift (Marsaglia 2003), two draws a number. */
export function seededRandom(seed: number): () => number {
  let state = (seed ^ 0x9e3779b9) >>> 0 || 1;
  const next = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return state >>> 0;
  };
  for (let i = 0; i < 8; i++) next();
  return () => (next() * 2 ** -32 + next()) * 2 ** -32;
}
