/**
 * Exact coancestries in a line that grows by spawns.
 *
 * It is kept by units: a spawn, whose young are alike to everyone but themselves and each other, or a single fish. A young that becomes a
 * parent is taken out of its spawn ({@link UnitKinship.single}). Units 0 to `founders - 1` are single fish that may be related and
 * inbred. No recurrence of a scheme is used. Cost of a unit: the number of units so far.
 */
export class UnitKinship {
  readonly #founders: number;
  /** Of a spawn with itself: of two different young. */
  #table: Float64Array;
  #room: number;
  #units: number;
  readonly #inbreeding: number[] = [];

  /** @param coancestry founders x founders, row by row; of a fish with itself (1 + F) / 2. */
  constructor(founders: number, coancestry: Float64Array) {
    this.#founders = founders;
    this.#units = founders;
    this.#room = founders + 32;
    this.#table = new Float64Array(this.#room ** 2);
    for (let a = 0; a < founders; a++) {
      this.#inbreeding.push(2 * coancestry[a * founders + a]! - 1);
      for (let b = 0; b < founders; b++)
        this.#table[a * this.#room + b] = coancestry[a * founders + b]!;
    }
  }

  /** Forgets all units but the founders. */
  reset(): void {
    this.#units = this.#founders;
    this.#inbreeding.length = this.#founders;
  }

  /** F of the fish of a unit. */
  inbreedingOf(unit: number): number {
    return this.#inbreeding[unit]!;
  }

  /** Coancestry of fish of two units; with the same unit twice, of two different young of a spawn, or of a single fish with itself. */
  between(a: number, b: number): number {
    return this.#table[a * this.#room + b]!;
  }

  /** Adds the spawn of two single fish and gives its unit. */
  spawn(sire: number, dam: number): number {
    const unit = this.#open();
    const { table, room } = { table: this.#table, room: this.#room };
    for (let other = 0; other < unit; other++) {
      const mean = (table[sire * room + other]! + table[dam * room + other]!) / 2;
      table[unit * room + other] = mean;
      table[other * room + unit] = mean;
    }
    const parents = table[sire * room + dam]!;
    table[unit * room + unit] =
      (table[sire * room + sire]! + table[dam * room + dam]! + 2 * parents) / 4;
    this.#inbreeding.push(parents);
    return unit;
  }

  /** Takes one young out of its spawn and gives its own unit. */
  single(spawn: number): number {
    const unit = this.#open();
    const { table, room } = { table: this.#table, room: this.#room };
    for (let other = 0; other < unit; other++) {
      const value = table[spawn * room + other]!;
      table[unit * room + other] = value;
      table[other * room + unit] = value;
    }
    const own = this.#inbreeding[spawn]!;
    table[unit * room + unit] = (1 + own) / 2;
    this.#inbreeding.push(own);
    return unit;
  }

  #open(): number {
    const unit = this.#units++;
    if (unit >= this.#room) this.#grow();
    return unit;
  }

  #grow(): void {
    const room = 2 * this.#room;
    const larger = new Float64Array(room ** 2);
    for (let a = 0; a < this.#room; a++)
      larger.set(this.#table.subarray(a * this.#room, (a + 1) * this.#room), a * room);
    this.#table = larger;
    this.#room = room;
  }
}
