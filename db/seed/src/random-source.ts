/** A seeded stream of random numbers; the same seed gives the same stream on every machine. */
export class RandomSource {
  private readonly words = new Uint32Array(4);

  constructor(seed: number) {
    let word = seed >>> 0;
    for (let index = 0; index < 4; index += 1) {
      // Spreads small seeds over all bits (multiplier of Knuth, TAOCP 2, section 3.3.4, table 1, line 16).
      word = (Math.imul(word, 1664525) + 1013904223) >>> 0;
      this.words[index] = word;
    }
    for (let turn = 0; turn < 20; turn += 1) this.next();
  }

  /** Uniform in [0, 1): Marsaglia's xorshift of 128 bits (Journal of Statistical Software 8(14), 2003, page 5). */
  next(): number {
    const [x = 0, y = 0, z = 0, w = 0] = this.words;
    const t = x ^ (x << 11);
    this.words.set([y, z, w, (w ^ (w >>> 19) ^ t ^ (t >>> 8)) >>> 0]);
    return (this.words[3] ?? 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** Whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  /** Normal deviate (Box and Muller 1958, the cosine half). */
  normal(mean: number, deviation: number): number {
    const radius = Math.sqrt(-2 * Math.log(1 - this.next()));
    return mean + deviation * radius * Math.cos(2 * Math.PI * this.next());
  }

  pick<T>(list: readonly T[]): T {
    const item = list[Math.floor(this.next() * list.length)];
    if (item === undefined) throw new RangeError('nothing to pick from');
    return item;
  }

  /** A version 8 UUID (RFC 9562): our own bits, with version and variant in their places. */
  uuid(): string {
    const hex = Array.from({ length: 32 }, () => Math.floor(this.next() * 16).toString(16));
    hex[12] = '8';
    hex[16] = '89ab'.charAt(Math.floor(this.next() * 4));
    const text = hex.join('');
    return [
      text.slice(0, 8),
      text.slice(8, 12),
      text.slice(12, 16),
      text.slice(16, 20),
      text.slice(20),
    ].join('-');
  }
}
