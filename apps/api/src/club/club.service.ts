import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { besideTheLoop } from '../jobs/beside.js';
import { namedFish } from '../kinship/named-fish.js';
import { pedigreePart } from '../kinship/pedigree-part.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { LociService } from '../loci/loci.service.js';
import type { NamedFishModel } from '../shapes/named-fish.model.js';
import {
  fishInUseOfLines,
  lineOfClub,
  looksOfLines,
  type ShownLineRow,
  shownLines,
} from '../stock/club-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { ClubFounderModel, ClubLineModel, ClubModel } from './club.model.js';
import { clubProgram } from './club-program.js';
import { type ClubAnswer, type HeldFounder, REPLICATES } from './club-task.js';

/** Lines whose kinship is worked out together; those left out are told. */
const MOST_LINES = 60;
const MOST_FOUNDERS = 100;
/** A look of fewer fish than these would tell of single ones. */
const LEAST_OF_LOOK = 3;
/** A line holds a founder from this chance on: 1 in 20, our choice. */
const HELD = 0.05;

interface LineInClub extends ShownLineRow {
  readonly shown: boolean;
  readonly fishIds: readonly string[];
}

/** Lines that are shown, the kinship between them, and who holds a founder's blood. No fish is told that the asker may not see. */
@Injectable()
export class ClubService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly pedigrees: PedigreeService,
    private readonly loci: LociService,
  ) {}

  /** @throws RequestError `NOT_FOUND` for a line that the asker does not see. */
  async of(lineId: string | null, by: SignedInPerson): Promise<ClubModel> {
    const asked =
      lineId === null ? null : await this.records.find(this.dataSource.manager, lineRecord, lineId);
    const { lines, leftOut } = await asSystem('club', () => this.linesWith(asked?.id ?? null));
    const { answer, unknown, ids } = await this.workedOut(lines);
    const looks = await asSystem('club', () => this.looksOf(lines));
    const { order, kinship } = inOrder(lines, answer, asked?.id ?? null);
    const founders = await this.foundersOf(answer, ids, lines, order);
    return {
      lines: order.map((k): ClubLineModel => ({
        ...{ id: lines[k]!.id, code: lines[k]!.code, name: lines[k]!.name },
        keeper: { id: lines[k]!.keeperId, name: lines[k]!.keeperName, here: false },
        mine: lines[k]!.keeperId === by.keepsFor,
        shown: lines[k]!.shown,
        inUse: lines[k]!.fishIds.length,
        looks: looks.get(lines[k]!.id) ?? [],
        kinship: order.map((other) => kinship(k, other)),
        atLeast: unknown[k]!,
      })),
      linesLeftOut: leftOut,
      founders: founders.slice(0, MOST_FOUNDERS),
      foundersLeftOut: Math.max(0, founders.length - MOST_FOUNDERS),
      drops: REPLICATES,
    };
  }

  /** Lines that are shown, with the one asked for, shown or not; as the program. */
  private async linesWith(asked: string | null): Promise<{ lines: LineInClub[]; leftOut: number }> {
    const shown = await shownLines(this.dataSource);
    const own = shown.find(({ id }) => id === asked);
    const line = own ?? (asked === null ? null : await lineOfClub(this.dataSource, asked));
    const others = shown.filter(({ id }) => id !== asked);
    const taken = [...(line == null ? [] : [line]), ...others].slice(0, MOST_LINES);
    const fish = await fishInUseOfLines(
      this.dataSource,
      taken.map(({ id }) => id),
    );
    return {
      leftOut: others.length + (line == null ? 0 : 1) - taken.length,
      lines: taken.map((one) => ({
        ...one,
        shown: one !== line || own !== undefined,
        fishIds: fish.filter(({ lineId }) => lineId === one.id).map(({ id }) => id),
      })),
    };
  }

  /** What is seen at several of a line's fish, with the name of its locus; as the program. */
  private async looksOf(lines: readonly LineInClub[]): Promise<Map<string, string[]>> {
    const ids = lines.map(({ id }) => id);
    const rows = await looksOfLines(this.dataSource, ids, LEAST_OF_LOOK);
    const names = new Map((await this.loci.all()).map(({ id, name }) => [id, name]));
    const found = new Map<string, string[]>();
    for (const { lineId, locusId, look } of rows)
      found.set(lineId, [
        ...(found.get(lineId) ?? []),
        `${names.get(locusId) ?? locusId}: ${look}`,
      ]);
    return found;
  }

  private async workedOut(
    lines: readonly LineInClub[],
  ): Promise<{ answer: ClubAnswer; unknown: boolean[]; ids: readonly string[] }> {
    const { pedigree, unknown } = await this.pedigrees.state();
    const { part } = pedigreePart(
      pedigree,
      lines.flatMap(({ fishIds }) => fishIds),
    );
    const place = new Map(part.ids.map((id, k) => [id, k]));
    const groups = lines.map(({ fishIds }) => Int32Array.from(fishIds, (id) => place.get(id)!));
    return {
      answer: await besideTheLoop(clubProgram, { part, groups }),
      unknown: lines.map(({ fishIds }) =>
        fishIds.some((id) => unknown[pedigree.indexOf(id)] === 1),
      ),
      ids: part.ids,
    };
  }

  /** Those that one line alone holds first. Names are read as whoever asks. */
  private async foundersOf(
    { founders }: ClubAnswer,
    ids: readonly string[],
    lines: readonly LineInClub[],
    order: readonly number[],
  ): Promise<ClubFounderModel[]> {
    const named = await namedFish(
      this.dataSource,
      founders.map(({ founder }) => ids[founder]!),
      'absent',
    );
    const holders = ({ chances }: HeldFounder): number[] =>
      order.filter((k) => chances[k]! >= HELD);
    return founders
      .map((one) => ({ one, held: holders(one), most: Math.max(...one.chances) }))
      .sort((a, b) => (a.held.length || 99) - (b.held.length || 99) || b.most - a.most)
      .map(({ one, held }) => ({
        fish: seenOf(named.get(ids[one.founder]!)),
        unknownParent: one.unknownParent,
        shares: order.map((k) => one.shares[k]!),
        chances: order.map((k) => one.chances[k]!),
        onlyIn: held.length === 1 ? lines[held[0]!]!.id : null,
      }));
  }
}

/** The unknown parent of a spawn is told with the spawn alone: its id names it. */
const seenOf = (fish: NamedFishModel | undefined): NamedFishModel | null =>
  fish === undefined || ('unknownParentOf' in fish && fish.unknownParentOf === null) ? null : fish;

/** The line asked for first, then the least related to it; without one, as keepers and codes stand. */
const inOrder = (
  lines: readonly LineInClub[],
  answer: ClubAnswer,
  asked: string | null,
): { order: number[]; kinship: (row: number, column: number) => number | null } => {
  const kinship = (row: number, column: number): number | null => {
    const value = answer.kinship[row * lines.length + column]!;
    return Number.isNaN(value) ? null : value;
  };
  const all = lines.map((_, k) => k);
  if (lines[0]?.id !== asked || asked === null) return { order: all, kinship };
  const others = all.slice(1).sort((a, b) => (kinship(0, a) ?? 2) - (kinship(0, b) ?? 2) || a - b);
  return { order: [0, ...others], kinship };
};
