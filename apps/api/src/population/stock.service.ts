import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { namedFish } from '../kinship/named-fish.js';
import { expectLines } from '../stock/line-rows.js';
import { countInUse, namedInUse, namedOfLine, oneOfEachSib } from '../stock/named-rows.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';

/** A fish in use, and how many full sibs of its sex it stands for, itself included. */
export type SibInUse = NamedFishModel & { readonly standsFor: number };

/** Reads the fish that figures about a stock are about, each list in one query. */
@Injectable()
export class StockService {
  constructor(private readonly dataSource: DataSource) {}

  ofLine(lineId: string): Promise<NamedFishModel[]> {
    return namedOfLine(this.dataSource, lineId);
  }

  /** Fish in use, of all lines or of some; one more than `most` shows that there are too many. */
  inUse(
    lineIds: readonly string[] | null,
    includeUnsorted: boolean,
    most: number,
  ): Promise<NamedFishModel[]> {
    return namedInUse(this.dataSource, { lineIds, includeUnsorted }, most + 1);
  }

  /**
   * Of the fish in use one of each sex of every pair's young, the first by tag, with how many it stands for; fish without a
   * spawn, and those of a mixed one with a parent unknown, stand for themselves.
   */
  oneOfEachSib(
    lineIds: readonly string[] | null,
    includeUnsorted: boolean,
    most: number,
  ): Promise<SibInUse[]> {
    return oneOfEachSib(this.dataSource, { lineIds, includeUnsorted }, most + 1);
  }

  countInUse(lineIds: readonly string[] | null, includeUnsorted: boolean): Promise<number> {
    return countInUse(this.dataSource, { lineIds, includeUnsorted });
  }

  /** By id, withdrawn ones too: an ancestor stays an ancestor. */
  async named(ids: readonly string[]): Promise<Map<string, NamedFishModel>> {
    return ids.length === 0 ? new Map() : namedFish(this.dataSource, ids);
  }

  /** Those of the ids that whoever asks may see. */
  async seen(ids: readonly string[]): Promise<Map<string, NamedFishModel>> {
    return ids.length === 0 ? new Map() : namedFish(this.dataSource, ids, 'absent');
  }

  /** @throws RequestError `NOT_FOUND` for the first that is not recorded. */
  expectLines(ids: readonly string[]): Promise<void> {
    return expectLines(this.dataSource, ids);
  }
}

/** The largest first; of equals, which the pedigree holds in the order of their random ids, by tag. */
export const largestFirst = <Row>(
  rows: readonly Row[],
  amount: (row: Row) => number,
  fish: (row: Row) => NamedFishModel,
): Row[] =>
  rows.toSorted((a, b) => amount(b) - amount(a) || fish(a).tag.localeCompare(fish(b).tag, 'en'));
