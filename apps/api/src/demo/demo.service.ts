import { completePurpose } from '@linewright/mating';
import type {
  DemoFish,
  DemoLinePurpose,
  DemoPicture,
  DemoScenario,
  DemoScoreSheet,
} from '@linewright/seed';
import { Injectable, Logger } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import { InstallStateRow } from '../database/install-state.entity.js';
import { RequestError } from '../errors/request-error.js';
import { besideTheLoop } from '../jobs/beside.js';
import { PhotosService } from '../photos/photos.service.js';
import { usualPlace } from '../stock/fish-place.js';
import { clearTables, isEmpty, type RowsOfTable, writeTables } from '../stock/whole-stock.js';
import { scenarioProgram } from './scenario-program.js';

const SEED = 20_261;
const BY = 'demo scenario';

const withoutVersions = ({ versions: _, ...sheet }: DemoScoreSheet): object => sheet;
const versionRows = ({ id, versions }: DemoScoreSheet): object[] =>
  versions.map((version) => ({ ...version, sheetId: id }));

const withRole = (person: { here: boolean }) => ({ ...person, role: person.here ? 'owner' : null });

const withPlace = (fish: DemoFish) => ({
  ...fish,
  swimsWithId: usualPlace(fish.personId, fish.disposition),
});

const withWholePurpose = (said: DemoLinePurpose) => ({
  ...said,
  content: completePurpose(said.content),
});

/** Readings name the vessel that they are of. */
const waterRows = ({ waterReadings, vessels }: DemoScenario): object[] => {
  const idOf = new Map(vessels.map(({ code, id }) => [code, id]));
  return waterReadings.map(({ vessel, ...reading }) => ({
    ...reading,
    vesselId: vessel === null ? null : idOf.get(vessel),
  }));
};

/** The tables of a scenario, each before those that point to it. */
const tablesOf = (scenario: DemoScenario): RowsOfTable[] => [
  { of: 'people', rows: scenario.people.map(withRole) },
  { of: 'line', rows: scenario.lines },
  { of: 'pairing', rows: scenario.pairings },
  { of: 'spawn', rows: scenario.spawns },
  { of: 'fish', rows: scenario.fish.map(withPlace) },
  { of: 'spawn_event', rows: scenario.spawnEvents },
  { of: 'care_record', rows: scenario.careRecords },
  { of: 'spawn_count', rows: scenario.spawnCounts },
  { of: 'spawn_loss', rows: scenario.spawnLosses },
  { of: 'class_count', rows: scenario.classCounts },
  { of: 'trait', rows: scenario.traitDefinitions },
  { of: 'line purposes', rows: scenario.linePurposes.map(withWholePurpose) },
  { of: 'score_sheet', rows: scenario.scoreSheets.map(withoutVersions) },
  { of: 'sheet versions', rows: scenario.scoreSheets.flatMap(versionRows) },
  { of: 'sheet_scoring', rows: scenario.sheetScorings },
  { of: 'score', rows: scenario.scores },
  { of: 'genotype', rows: scenario.genotypes },
  { of: 'phenotype', rows: scenario.phenotypes },
  { of: 'locus_setting', rows: scenario.locusSettings },
  { of: 'vessel', rows: scenario.vessels },
  { of: 'vessel stays', rows: scenario.vesselStays },
  { of: 'water_reading', rows: waterRows(scenario) },
];

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
      await writeTables(m, tablesOf(scenario), { by: BY, at: () => this.clock.now() });
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
        await this.photos.add(photo, bytes, BY);
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
      await clearTables(m);
      await m.update(InstallStateRow, { id: 1 }, { demo: false, homeNetwork: false });
    });
  }

  private async expectEmpty(m: EntityManager): Promise<void> {
    await this.lockedState(m);
    if (!(await isEmpty(m))) {
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
}
