import { DAY } from '@linewright/care';
import { Injectable } from '@nestjs/common';
import {
  type LineHealth,
  inbreedingCoefficients,
  lineHealth,
  meanKinship,
} from '@linewright/kinship';
import { type Pedigree, generationDepth, subset, withAncestors } from '@linewright/pedigree';
import { PedigreeService } from '../kinship/pedigree.service.js';
import type { LineRow } from '../lines/line.entity.js';
import { LinesService } from '../lines/lines.service.js';
import type { NamedFishModel } from './named-fish.model.js';
import { StockService, inUseDispositions } from './stock.service.js';

/** The figures of a line, and what they index: its fish and all their ancestors. */
export interface ComputedLine {
  readonly pedigree: Pedigree;
  readonly fish: ReadonlyMap<string, NamedFishModel>;
  /** All fish of the line, as indices. */
  readonly members: Int32Array;
  readonly inUse: Int32Array;
  readonly generation: Int32Array;
  readonly inbreeding: Float64Array;
  /** One for each of `inUse`. */
  readonly kinship: Float64Array;
  readonly health: LineHealth;
}

export interface LineStanding {
  readonly line: LineRow;
  readonly fishCount: number;
  readonly inUseCount: number;
  /** `null` when no fish of the line is in use. */
  readonly computed: ComputedLine | null;
}

/** The same drops for the same records: a figure must not move when the page is read again. */
const SEED = 20_260_101;

/** Computes a line's figures from the pedigree as the database has it now; nothing is kept between two requests. */
@Injectable()
export class LineHealthService {
  constructor(
    private readonly lines: LinesService,
    private readonly pedigrees: PedigreeService,
    private readonly stock: StockService,
  ) {}

  async of(lineId: string, includeUnsorted: boolean): Promise<LineStanding> {
    const line = await this.lines.one(lineId);
    const members = await this.stock.ofLine(lineId);
    const wanted = new Set<string>(inUseDispositions(includeUnsorted));
    const inUse = members.filter((fish) => wanted.has(fish.disposition));
    return {
      line,
      fishCount: members.length,
      inUseCount: inUse.length,
      computed: inUse.length === 0 ? null : await this.compute(members, inUse),
    };
  }

  private async compute(
    members: readonly NamedFishModel[],
    inUse: readonly NamedFishModel[],
  ): Promise<ComputedLine> {
    // Asked for after the fish, so that it has every one of them.
    const { pedigree: whole } = await this.pedigrees.state();
    const pedigree = subset(
      whole,
      withAncestors(
        whole,
        members.map(({ id }) => whole.indexOf(id)),
      ),
    );
    const fish = new Map(members.map((one) => [one.id, one]));
    const others = pedigree.ids.filter((id) => !fish.has(id));
    for (const [id, one] of await this.stock.named(others)) fish.set(id, one);
    const at = (list: readonly NamedFishModel[]): Int32Array =>
      Int32Array.from(list, ({ id }) => pedigree.indexOf(id));
    const generation = generationDepth(pedigree);
    const indices = { members: at(members), inUse: at(inUse) };
    return {
      pedigree,
      fish,
      ...indices,
      generation,
      inbreeding: inbreedingCoefficients(pedigree),
      kinship: meanKinship(pedigree, indices.inUse),
      health: lineHealth({
        pedigree,
        inUse: indices.inUse,
        line: indices.members,
        generation,
        bornOn: pedigree.ids.map((id) => daysOf(fish.get(id)?.hatchDate ?? null)),
        seed: SEED,
      }),
    };
  }
}

const daysOf = (date: string | null): number => (date === null ? NaN : Date.parse(date) / DAY);
