import type { DemoFish, DemoPicture, DemoScoreSheet } from '@linewright/seed';
import { Injectable, Logger } from '@nestjs/common';
import { DataSource, type EntityManager, type EntityTarget, type ObjectLiteral } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { PersonRow } from '../stock/rows/person.entity.js';
import { CareEntryRow } from '../stock/rows/care.entity.js';
import { Clock } from '../clock/clock.js';
import { InstallStateRow } from '../database/install-state.entity.js';
import { entities } from '../stock/entities.js';
import { RequestError } from '../errors/request-error.js';
import { FishRow } from '../stock/rows/fish.entity.js';
import { usualPlace } from '../stock/fish-place.js';
import { GenotypeRow } from '../stock/rows/genotype.entity.js';
import { LocusSettingRow } from '../stock/rows/locus-setting.entity.js';
import { PhenotypeRow } from '../stock/rows/phenotype.entity.js';
import { HistoryRow } from '../stock/rows/history.entity.js';
import type { RecordKind } from '../database/record-kind.js';
import { LineRow } from '../stock/rows/line.entity.js';
import { PairingRow } from '../stock/rows/pairing.entity.js';
import { PhotosService } from '../photos/photos.service.js';
import {
  ScoreSheetRow,
  ScoreSheetVersionRow,
  SheetScoringRow,
} from '../stock/rows/sheet.entity.js';
import { besideTheLoop } from '../jobs/beside.js';
import { ScoreRow, TraitDefinitionRow } from '../stock/rows/score.entity.js';
import {
  ClassCountRow,
  SpawnCountRow,
  SpawnEventRow,
  SpawnLossRow,
} from '../stock/rows/spawn-entries.entity.js';
import { SpawnRow } from '../stock/rows/spawn.entity.js';
import { WaterReadingRow } from '../stock/rows/water-reading.entity.js';
import { scenarioProgram } from './scenario-program.js';

const SEED = 20_261;
const ROWS_AT_ONCE = 500;

const withoutVersions = ({ versions: _, ...sheet }: DemoScoreSheet): object => sheet;
const versionRows = ({ id, versions }: DemoScoreSheet): object[] =>
  versions.map((version) => ({ ...version, sheetId: id }));

const withRole = (person: { here: boolean }) => ({ ...person, role: person.here ? 'owner' : null });

const withPlace = (fish: DemoFish) => ({
  ...fish,
  swimsWithId: usualPlace(fish.keeperId, fish.disposition),
});

/** Loads the demo scenario into an empty database, and clears it again. */
@Injectable()
export class DemoService {
  private readonly log = new Logger('demo');

  constructor(
    private readonly dataSource: DataSource,
    private readonly photos: PhotosService,
    private readonly clock: Clock,
  ) {}

  load(): Promise<void> {
    return asSystem('demo', () => this.fill());
  }

  private async fill(): Promise<void> {
    await this.dataSource.transaction((m) => this.expectEmpty(m));
    const scenario = await besideTheLoop(scenarioProgram, {
      seed: SEED,
      today: this.clock.today(),
      zone: this.clock.zone(),
    });
    await this.dataSource.transaction(async (m) => {
      await this.expectEmpty(m);
      await this.insert(m, PersonRow, scenario.people.map(withRole));
      await this.insert(m, LineRow, scenario.lines, 'line');
      await this.insert(m, PairingRow, scenario.pairings, 'pairing');
      await this.insert(m, SpawnRow, scenario.spawns, 'spawn');
      await this.insert(m, FishRow, scenario.fish.map(withPlace), 'fish');
      await this.insert(m, SpawnEventRow, scenario.spawnEvents, 'spawn_event');
      await this.insert(m, CareEntryRow, scenario.careEntries, 'care_entry');
      await this.insert(m, SpawnCountRow, scenario.spawnCounts, 'spawn_count');
      await this.insert(m, SpawnLossRow, scenario.spawnLosses, 'spawn_loss');
      await this.insert(m, ClassCountRow, scenario.classCounts, 'class_count');
      await this.insert(m, TraitDefinitionRow, scenario.traitDefinitions, 'trait');
      await this.insert(m, ScoreSheetRow, scenario.scoreSheets.map(withoutVersions), 'score_sheet');
      await this.insert(m, ScoreSheetVersionRow, scenario.scoreSheets.flatMap(versionRows));
      await this.insert(m, SheetScoringRow, scenario.sheetScorings, 'sheet_scoring');
      await this.insert(m, ScoreRow, scenario.scores, 'score');
      await this.insert(m, GenotypeRow, scenario.genotypes, 'genotype');
      await this.insert(m, PhenotypeRow, scenario.phenotypes, 'phenotype');
      await this.insert(m, LocusSettingRow, scenario.locusSettings, 'locus_setting');
      await this.insert(m, WaterReadingRow, scenario.waterReadings, 'water_reading');
      await m.update(InstallStateRow, { id: 1 }, { demo: true });
    });
    await this.addPictures(scenario.pictures);
  }

  /** Drawings kept as photos are; without them the demo is as good, so a fault here does not undo it. */
  private async addPictures(pictures: readonly DemoPicture[]): Promise<void> {
    try {
      const { default: sharp } = await import('sharp');
      for (const { svg, ...photo } of pictures) {
        const bytes = await sharp(Buffer.from(svg)).png().toBuffer();
        await this.photos.add(photo, bytes, 'demo scenario');
      }
    } catch (error) {
      this.log.warn(`The demo's drawings were not loaded: ${String(error)}`);
    }
  }

  /** Empties a database that holds the demo, so that the person's own records can begin. Never touches any other. */
  async clear(): Promise<void> {
    await this.dataSource.transaction(async (m) => {
      const state = await this.lockedState(m);
      if (state?.demo !== true) {
        throw new RequestError(
          'NOT_FOUND',
          'The records here are not the demo: nothing was cleared.',
        );
      }
      // Row by row, and not by emptying the tables: that the policies would not see.
      for (const entity of entities.filter((one) => one !== InstallStateRow))
        await m.createQueryBuilder().delete().from<ObjectLiteral>(entity).execute();
      await m.update(InstallStateRow, { id: 1 }, { demo: false });
    });
  }

  private async expectEmpty(m: EntityManager): Promise<void> {
    await this.lockedState(m);
    if ((await m.existsBy(PersonRow, {})) || (await m.existsBy(FishRow, {}))) {
      throw new RequestError(
        'DATABASE_NOT_EMPTY',
        'The demo loads only into an empty database: set another DATA_DIR to look at it beside your records.',
      );
    }
  }

  private lockedState(m: EntityManager): Promise<InstallStateRow | null> {
    return m.findOne(InstallStateRow, {
      where: { id: 1 },
      lock: { mode: 'pessimistic_write' },
    });
  }

  private async insert(
    m: EntityManager,
    target: EntityTarget<ObjectLiteral>,
    rows: readonly object[],
    kind?: RecordKind,
  ): Promise<void> {
    for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) {
      const part = rows.slice(from, from + ROWS_AT_ONCE) as (ObjectLiteral & { id: string })[];
      const some = part.map((row) => ({ createdAt: this.clock.now(), ...row }));
      await m.insert(target, some);
      if (kind === undefined) continue;
      const entries = some.map((row) => ({
        recordKind: kind,
        recordId: row.id,
        revision: 1,
        byName: 'demo scenario',
        action: 'recorded',
        changes: {},
      }));
      await m.insert(HistoryRow, entries);
    }
  }
}
