/**
 * Numbers tags in the order they are first met, without a string for any of them: their bytes stand in one buffer, found
 * again through an open-addressing hash table.
 */
export class TagTable {
  #bytes = new Uint8Array(1 << 16);
  /** Tag k is `#bytes[#start[k]]` to `#bytes[#start[k + 1] - 1]`. */
  #start = new Int32Array(1 << 12);
  #hash = new Int32Array(1 << 12);
  #slots = new Int32Array(1 << 13);
  #count = 0;

  get count(): number {
    return this.#count;
  }

  /** Number of the tag with these bytes. */
  number(from: Uint8Array, start: number, end: number): number {
    let hash = end - start;
    for (let k = start; k < end; k++) hash = Math.imul(hash ^ from[k]!, 0x01000193);
    // Mixes the high bits into those that choose the slot.
    hash ^= hash >>> 15;
    const mask = this.#slots.length - 1;
    let slot = Math.imul(hash, 0x9e3779b1) & mask;
    for (;;) {
      const tag = this.#slots[slot]! - 1;
      if (tag < 0) return this.#add(from, start, end, hash, slot);
      if (this.#hash[tag] === hash && this.matches(tag, from, start, end)) return tag;
      slot = (slot + 1) & mask;
    }
  }

  /** True when the tag has these bytes. */
  matches(tag: number, from: Uint8Array, start: number, end: number): boolean {
    const own = this.#start[tag]!;
    const length = end - start;
    if (this.#start[tag + 1]! - own !== length) return false;
    const bytes = this.#bytes;
    // Neighbouring tags differ at their ends.
    for (let k = length - 1; k >= 0; k--) {
      if (bytes[own + k] !== from[start + k]) return false;
    }
    return true;
  }

  text(tag: number): string {
    return utf8.decode(this.bytes(tag));
  }

  bytes(tag: number): Uint8Array {
    return this.#bytes.subarray(this.#start[tag]!, this.#start[tag + 1]!);
  }

  /** Copies a tag's bytes and returns where the copy ends. */
  copy(tag: number, to: Uint8Array, at: number): number {
    const bytes = this.#bytes;
    const end = this.#start[tag + 1]!;
    for (let k = this.#start[tag]!; k < end; k++) to[at++] = bytes[k]!;
    return at;
  }

  #add(from: Uint8Array, start: number, end: number, hash: number, slot: number): number {
    const tag = this.#count++;
    if (tag + 2 > this.#start.length) {
      this.#start = doubled(this.#start);
      this.#hash = doubled(this.#hash);
    }
    let at = this.#start[tag]!;
    if (at + end - start > this.#bytes.length) {
      const larger = new Uint8Array(2 * this.#bytes.length + end - start);
      larger.set(this.#bytes);
      this.#bytes = larger;
    }
    for (let k = start; k < end; k++) this.#bytes[at++] = from[k]!;
    this.#start[tag + 1] = at;
    this.#hash[tag] = hash;
    this.#slots[slot] = tag + 1;
    if (4 * this.#count > 3 * this.#slots.length) this.#rehash();
    return tag;
  }

  #rehash(): void {
    const slots = new Int32Array(4 * this.#slots.length);
    const mask = slots.length - 1;
    for (let tag = 0; tag < this.#count; tag++) {
      let slot = Math.imul(this.#hash[tag]!, 0x9e3779b1) & mask;
      while (slots[slot] !== 0) slot = (slot + 1) & mask;
      slots[slot] = tag + 1;
    }
    this.#slots = slots;
  }
}

const utf8 = new TextDecoder();

/** Twice the room, the same content. */
export function doubled(array: Int32Array): Int32Array<ArrayBuffer> {
  const larger = new Int32Array(2 * array.length);
  larger.set(array);
  return larger;
}
