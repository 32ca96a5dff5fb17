import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../access/acting.js';
import type { BroodStage } from '../merit/brood-stages.js';
import type { StageCounts, StageLoad } from '../merit/line-load.js';
import { PooledMeritService } from '../merit/pooled-merit.service.js';
import { countedLines, lineKeepers, linesToldOf, noteLinesToldOf } from '../stock/club-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { traitRecord } from '../stock/record-types.js';
import {
  differsEnough,
  type Disclosure,
  disclosureOf,
  ONE_CHANGED,
  rounded,
} from './disclosure.js';
import type { PooledHeritabilityModel, PooledStageModel } from './pooled.model.js';

type KeeperOf = ReadonlyMap<string, string>;

const orNull = (value: number | null): number | null => (value === null ? null : rounded(value));

/** Figures over the lines that count, by the program; told only where nobody's own can be read off. */
@Injectable()
export class PooledService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly pooled: PooledMeritService,
  ) {}

  /** What inbreeding costs, stage by stage. */
  load(): Promise<PooledStageModel[]> {
    return asSystem('club', async () => {
      const keeperOf = await this.keepers();
      const stages = await this.pooled.stages([...keeperOf.keys()]);
      const found: { stage: BroodStage; told: Disclosure }[] = [];
      for (const stage of stages) {
        const lines = stage.rows.map(({ brood }) => brood.lineId);
        found.push({ stage, told: await this.disclosed(`load ${stage.stage}`, lines, keeperOf) });
      }
      const open = found.filter(({ told }) => told.whyNot === null);
      const loads = await this.pooled.loadsOf(open.map(({ stage, told }) => countsOf(stage, told)));
      return found.map((one) => toStage(one, loads[open.indexOf(one)]));
    });
  }

  /** @throws RequestError `NOT_FOUND` for a trait that whoever asks does not know. */
  async heritability(traitId: string): Promise<PooledHeritabilityModel> {
    const trait = await this.records.find(this.dataSource.manager, traitRecord, traitId);
    return asSystem('club', async () => {
      const keeperOf = await this.keepers();
      const looks = await this.pooled.looks(trait.id, [...keeperOf.keys()]);
      // A fish that was looked at several times is one fish.
      const lineOfFish = new Map(looks.rows.map(({ fishId, lineId }) => [fishId, lineId]));
      const told = await this.disclosed(
        `heritability ${trait.id}`,
        [...lineOfFish.values()],
        keeperOf,
      );
      const none = { mean: null, low: null, high: null, fromPrior: null };
      const { rows: fish, ...about } = countsTold(told);
      if (told.whyNot !== null) return { ...about, fish, ...none, whyNot: told.whyNot };
      const taken = [...looks.rows.keys()].filter((k) =>
        told.lineIds.includes(looks.rows[k]!.lineId),
      );
      const { heritability, refusal } = await looks.workOut(taken);
      if (heritability === null)
        return {
          ...about,
          fish,
          ...none,
          whyNot: refusal?.message ?? 'These scores give no figure.',
        };
      const band = heritability.bands.find(({ probability }) => probability === 0.95);
      return {
        ...about,
        fish,
        mean: rounded(heritability.mean),
        low: orNull(band?.low ?? null),
        high: orNull(band?.high ?? null),
        fromPrior: rounded(heritability.fromPrior),
        whyNot: null,
      };
    });
  }

  private async keepers(): Promise<KeeperOf> {
    const lines = await countedLines(this.dataSource);
    return new Map(lines.map(({ id, keeperId }) => [id, keeperId]));
  }

  /** @param lines the line of each row. */
  private async disclosed(
    figure: string,
    lines: readonly string[],
    keeperOf: KeeperOf,
  ): Promise<Disclosure> {
    const rows = new Map<string, number>();
    for (const lineId of lines) rows.set(lineId, (rows.get(lineId) ?? 0) + 1);
    const contributions = [...rows].map(([lineId, count]) => ({ lineId, rows: count }));
    const told = disclosureOf(contributions, keeperOf);
    if (told.whyNot !== null) return told;
    return this.dataSource.transaction(async (m) => {
      const before = await linesToldOf(m, figure);
      const whose = new Map([...(await lineKeepers(m, before)), ...keeperOf]);
      if (!differsEnough(before, told.lineIds, (id) => whose.get(id)))
        return { ...told, whyNot: ONE_CHANGED };
      await noteLinesToldOf(m, figure, [...told.lineIds]);
      return told;
    });
  }
}

/** How much is in a figure; where it is not told, that would be told of one keeper or two. */
const countsTold = ({ keepers, lineIds, rows, whyNot }: Disclosure) =>
  whyNot === null
    ? { keepers, lines: lineIds.length, rows }
    : { keepers: null, lines: null, rows: null };

/** Rows of the lines that go in, with their line by number. */
const countsOf = ({ rows, counts }: BroodStage, { lineIds }: Disclosure): StageCounts => {
  const taken = [...rows.keys()].filter((row) => lineIds.includes(rows[row]!.brood.lineId));
  const of = (values: readonly number[]): number[] => taken.map((row) => values[row]!);
  return {
    survivors: of(counts.survivors),
    counted: of(counts.counted),
    young: of(counts.young),
    dam: of(counts.dam),
    recent: of(counts.recent),
    old: of(counts.old),
    lines: taken.map((row) => lineIds.indexOf(rows[row]!.brood.lineId)),
  };
};

const toStage = (
  { stage, told }: { stage: BroodStage; told: Disclosure },
  load: StageLoad | undefined,
): PooledStageModel => {
  const { rows: broods, ...counts } = countsTold(told);
  return {
    stage: stage.stage,
    ...counts,
    broods,
    whyNot: told.whyNot ?? load?.refusal?.message ?? null,
    // Survival without inbreeding is that of one line, and is not told.
    costs: (load?.costs ?? []).map(({ column, perGamete, low, high, verdict }) => ({
      ...{ column, verdict, perGamete: rounded(perGamete) },
      ...{ low: orNull(low), high: orNull(high) },
    })),
  };
};
