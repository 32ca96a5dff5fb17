import { createHash } from 'node:crypto';
import type { BroodInbreeding } from '@linewright/merit';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { besideTheLoop } from '../jobs/beside.js';
import { ComputationsService } from '../jobs/computations.service.js';
import { KeptAnswers } from '../jobs/kept-answers.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { toLine } from '../shapes/line.mapper.js';
import { type CountedBroodRow, countedBroods } from '../stock/merit-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import { indexIn, stagesOf } from './brood-stages.js';
import type { StageCounts, StageLoad } from './line-load.js';
import {
  BroodSize,
  type BroodSizeLoadModel,
  type LineInbreedingLoadModel,
  type StageLoadModel,
} from './line-load.model.js';
import type { CountedSizes, MeasureLoad } from './measure-load.js';
import { broodSizesProgram, loadProgram } from './merit-programs.js';
import { toRefusal } from './trait-merit.mapper.js';

/** The latest; those left out are told. The search goes over each some thousand times: so many take four seconds at the most (measured). */
export const MOST_BROODS = 800;
/** Lines whose figures are kept, the last asked for. */
const MOST_HELD = 20;
const KIND = 'cost of inbreeding';
const SIZES_KIND = 'inbreeding and brood size';
/** Raised whenever answers get another shape: those stored in an older one are not served. */
const SHAPE = '2';

/** What inbreeding costs in a line, measured on its own broods. */
@Injectable()
export class LineLoadService {
  private readonly kept: KeptAnswers<StageLoad[]>;
  private readonly sizesKept: KeptAnswers<MeasureLoad[]>;

  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly pedigrees: PedigreeService,
    computations: ComputationsService,
  ) {
    this.kept = new KeptAnswers(computations, MOST_HELD);
    this.sizesKept = new KeptAnswers(computations, MOST_HELD);
  }

  async of(lineId: string, by: string): Promise<LineInbreedingLoadModel> {
    const line = await this.records.find(this.dataSource.manager, lineRecord, lineId);
    const all = await countedBroods(this.dataSource, [line.id], MOST_BROODS);
    const { pedigree } = await this.pedigrees.state();
    const index = indexIn(pedigree);
    const { broods, inbreeding, stages } = stagesOf(all, pedigree);
    const sizes = sizesOf(broods, inbreeding, index);
    const loads = await this.loadsOf(
      line.id,
      stages.map(({ counts }) => counts),
      by,
    );
    return {
      line: toLine(line),
      stages: stages.map(({ stage, rows, counts }, k): StageLoadModel => ({
        ...toStage(loads[k]!),
        stage,
        broods: rows.length,
        points: rows.map(({ brood, counted, survivors }, at) => ({
          spawnId: brood.id,
          tag: brood.tag,
          on: brood.on,
          young: counts.young[at]!,
          dam: counts.dam[at]!,
          survivors,
          counted,
        })),
      })),
      broodSizes: await this.broodSizesOf(line.id, sizes, by),
      broodsLeftOut: (all[0]?.ofLine ?? 0) - all.length,
    };
  }

  private async broodSizesOf(
    lineId: string,
    counted: readonly SizedBroods[],
    by: string,
  ): Promise<BroodSizeLoadModel[]> {
    const sizes = counted.map((one) => one.sizes);
    const evidence = createHash('sha256').update(SHAPE).update(JSON.stringify(sizes));
    const wanted = { kind: SIZES_KIND, subject: lineId, evidence: evidence.digest('hex') };
    const loads = await this.sizesKept.atOnce(wanted, by, () =>
      besideTheLoop(broodSizesProgram, sizes),
    );
    return Object.values(BroodSize).map((size, k): BroodSizeLoadModel => {
      const { changes, byAge, level, sizes: shown, refusal } = loads[k]!;
      const { rows, sizes } = counted[k]!;
      return {
        ...{ size, level, broods: rows.length, changes: [...changes], byAge: [...byAge] },
        refusal: toRefusal(refusal),
        points: shown.map((one, at) => ({
          spawnId: rows[at]!.id,
          tag: rows[at]!.tag,
          young: sizes.young[at]!,
          size: one,
          counted: 1,
        })),
      };
    });
  }

  /** Reckoned once for the same counts and the same F. */
  private loadsOf(
    lineId: string,
    counts: readonly StageCounts[],
    by: string,
  ): Promise<readonly StageLoad[]> {
    const evidence = createHash('sha256').update(SHAPE).update(JSON.stringify(counts));
    const wanted = { kind: KIND, subject: lineId, evidence: evidence.digest('hex') };
    return this.kept.atOnce(wanted, by, () => besideTheLoop(loadProgram, counts));
  }
}

const sizeWords: Readonly<Record<BroodSize, string>> = {
  eggs: 'Eggs in a spawn',
  free_swimming: 'Fry that swam free',
};

const countOf: Readonly<Record<BroodSize, (brood: CountedBroodRow) => number | null>> = {
  eggs: ({ eggs }) => eggs,
  free_swimming: ({ freeSwimming }) => freeSwimming,
};

/** Broods with a size, row by row. */
interface SizedBroods {
  readonly rows: readonly CountedBroodRow[];
  readonly sizes: CountedSizes;
}

/** Sizes of the broods that were counted; one of none is a failed spawn, and no size. */
const sizesOf = (
  broods: readonly CountedBroodRow[],
  inbreeding: BroodInbreeding,
  index: (id: string) => number,
): SizedBroods[] =>
  Object.values(BroodSize).map((size): SizedBroods => {
    const rows = broods.flatMap((brood, k) => {
      const count = countOf[size](brood) ?? 0;
      return count > 0 ? [{ brood, count, k }] : [];
    });
    const column = (of: keyof BroodInbreeding): number[] =>
      rows.map(({ k }) => inbreeding[of].values[k]!);
    return {
      rows: rows.map(({ brood }) => brood),
      sizes: {
        name: sizeWords[size],
        counts: rows.map(({ count }) => count),
        young: column('young'),
        dam: column('dam'),
        recent: column('recent'),
        old: column('old'),
        damOf: rows.map(({ brood }) => index(brood.damId)),
      },
    };
  });

const toStage = ({
  costs,
  byAge,
  refusal,
  ...rest
}: StageLoad): Omit<StageLoadModel, 'stage' | 'broods' | 'points'> => ({
  ...rest,
  costs: [...costs],
  byAge: [...byAge],
  refusal: toRefusal(refusal),
});
