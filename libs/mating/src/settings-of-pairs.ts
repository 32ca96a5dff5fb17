import type { PairingCandidate } from './candidate.js';
import {
  completeSettings,
  type PairingSettings,
  type PairingSettingsInput,
  stricterOfBoth,
} from './settings.js';

/** Settings that fish and pairs are judged by, each fish by those of its own line. */
export class SettingsOfPairs {
  /** Those of no line in particular first. */
  readonly #all: readonly PairingSettings[];
  readonly #ofMales: Int32Array;
  readonly #ofFemales: Int32Array;
  /** By the males' and the females' settings. */
  readonly #ofPairs: readonly PairingSettings[];

  constructor(
    usual: PairingSettings,
    ofLines: Readonly<Record<string, PairingSettingsInput>>,
    males: readonly PairingCandidate[],
    females: readonly PairingCandidate[],
  ) {
    const lines = Object.keys(ofLines);
    this.#all = [usual, ...lines.map((id) => completeSettings(ofLines[id]))];
    const place = ({ line }: PairingCandidate): number =>
      line === undefined ? 0 : lines.indexOf(line.id) + 1;
    this.#ofMales = Int32Array.from(males, place);
    this.#ofFemales = Int32Array.from(females, place);
    this.#ofPairs = this.#all.flatMap((one) =>
      this.#all.map((other) => (one === other ? one : stricterOfBoth(one, other))),
    );
  }

  ofMale(m: number): PairingSettings {
    return this.#all[this.#ofMales[m]!]!;
  }

  ofFemale(f: number): PairingSettings {
    return this.#all[this.#ofFemales[f]!]!;
  }

  ofPair(m: number, f: number): PairingSettings {
    return this.#ofPairs[this.#ofMales[m]! * this.#all.length + this.#ofFemales[f]!]!;
  }
}
