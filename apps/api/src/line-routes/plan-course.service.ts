import {
  type LinePurpose,
  planCourse,
  type PlanCourse,
  type PlanSpawn,
  STARTING_PURPOSE,
} from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { purposeOfLine, purposeVersion, wholePurpose } from '../stock/purpose-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import { goneOf, type SpawnOfPlanRow, spawnsForPlan, youngInUse } from '../stock/route-rows.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import type { LineRouteRow } from '../stock/rows/line-route.entity.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import { LineBeliefsService } from './line-beliefs.service.js';
import { type PassedYoung, passedYoung } from './passed-young.js';

/** A plan, and how it goes by the records of today. */
export interface PlanStanding {
  readonly row: LineRouteRow;
  readonly line: LineRow;
  readonly course: PlanCourse;
  /** Spawns that may be broods of the plan, the earliest first. */
  readonly spawns: readonly SpawnOfPlanRow[];
  /** F of those that are, by the spawn's id. */
  readonly inbreeding: ReadonlyMap<string, number>;
  /** How their young on record did, by the spawn's id. */
  readonly young: ReadonlyMap<string, PassedYoung>;
  /** What the young may carry is still worked out: whether an allele was lost is not known yet. */
  readonly waiting: ComputationRow | null;
}

/** Sets what really happened beside a plan. */
@Injectable()
export class PlanCourseService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly pedigrees: PedigreeService,
    private readonly beliefs: LineBeliefsService,
    private readonly clock: Clock,
  ) {}

  async of(row: LineRouteRow, by: string): Promise<PlanStanding> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, row.lineId);
    const purpose = await purposeOfLine(manager, row.lineId);
    const named = namedIn(row);
    const chosen = new Map(row.chosenSpawns.map(({ brood, spawnId }) => [brood, spawnId]));
    const spawns = await spawnsForPlan(manager, {
      ...{ lineId: row.lineId, fish: named, since: row.adoptedOn },
      spawns: [...chosen.values()].filter((id) => id !== null),
    });
    const events = {
      gone: new Set(await goneOf(manager, named)),
      ...{ chosen, purposeVersion: purpose.version, today: this.clock.today() },
    };
    const plan = {
      ...row.content,
      ...{ adoptedOn: row.adoptedOn, purposeVersion: row.purposeVersion },
    };
    const bare = spawns.map((spawn): PlanSpawn => ({
      ...{ ...spawn, inbreeding: 0, passed: 0 },
      carried: [],
    }));
    // First which spawns they are: only of those F and what their young carry is asked for.
    const found = planCourse(plan, { ...events, spawns: bare });
    const ids = found.steps.flatMap(({ spawnId }) => spawnId ?? []);
    const inbreeding = await this.inbreeding(spawns.filter(({ id }) => ids.includes(id)));
    const { carried, waiting } = await this.carried(manager, purpose.content.looks, ids, by);
    const standard = await this.standardOf(manager, row);
    const young = await passedYoung(this.dataSource, ids, standard);
    const whole = bare.map((spawn) => ({
      ...spawn,
      inbreeding: inbreeding.get(spawn.id) ?? 0,
      passed: young.get(spawn.id)?.passed ?? 0,
      carried: carried.get(spawn.id) ?? [],
    }));
    const course = planCourse(plan, { ...events, spawns: whole });
    return { row, line, course, spawns, inbreeding, young, waiting };
  }

  /** What the line was for when the plan was made. */
  private async standardOf(manager: EntityManager, row: LineRouteRow): Promise<LinePurpose> {
    const said = await purposeVersion(manager, row.lineId, row.purposeVersion);
    return said === null ? STARTING_PURPOSE : wholePurpose(said);
  }

  private async inbreeding(spawns: readonly SpawnOfPlanRow[]): Promise<Map<string, number>> {
    const found = new Map<string, number>();
    for (const { id, sireId, damId } of spawns)
      found.set(id, await this.pedigrees.inbreedingOfBrood(sireId, damId));
    return found;
  }

  /** By spawn, for each allele that is wanted the highest chance among its young in use to carry it. */
  private async carried(
    manager: EntityManager,
    looks: Parameters<LineBeliefsService['carriers']>[0],
    spawnIds: readonly string[],
    by: string,
  ): Promise<{ carried: Map<string, PlanSpawn['carried']>; waiting: ComputationRow | null }> {
    const young = looks.length === 0 ? [] : await youngInUse(manager, spawnIds);
    if (young.length === 0) return { carried: new Map(), waiting: null };
    const ids = young.map(({ id }) => id);
    const { carried, waiting } = await this.beliefs.carriers(looks, ids, by);
    const bySpawn = new Map(
      spawnIds.map((spawnId): [string, PlanSpawn['carried']] => {
        const places = [...young.keys()].filter((k) => young[k]!.spawnId === spawnId);
        const known = places.length === 0 ? [] : carried;
        return [
          spawnId,
          known.map(({ allele, chances }) => ({
            allele,
            chance: Math.max(...places.map((k) => chances[k]!)),
          })),
        ];
      }),
    );
    return { carried: bySpawn, waiting };
  }
}

/** Fish that a plan names as parents. */
const namedIn = ({ content }: LineRouteRow): string[] => [
  ...new Set(
    content.broods.flatMap(({ sire, dam }) =>
      [sire, dam].flatMap((parent) => (parent.kind === 'fish' ? [parent.id] : [])),
    ),
  ),
];
