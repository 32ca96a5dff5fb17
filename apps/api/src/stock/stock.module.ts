import { Module } from '@nestjs/common';
import { CareLoader } from './care.loader.js';
import { FishLoader } from './fish.loader.js';
import { GenotypeLoader } from './genotype.loader.js';
import { HandOverLoader } from './hand-over.loader.js';
import { HistoryService } from './history.service.js';
import { PersonLoader } from './person.loader.js';
import { LineLoader } from './line.loader.js';
import { PairingLoader } from './pairing.loader.js';
import { DealLoader } from './deal.loader.js';
import { ShowLoader } from './show.loader.js';
import { PhotoLoader } from './photo.loader.js';
import { PurposeLoader } from './purpose.loader.js';
import { PartsLoader } from './parts.loader.js';
import { RightsLoader } from './rights.loader.js';
import { RoundLoader } from './round.loader.js';
import { RecordStore } from './record-store.js';
import { ScoreLoader } from './score.loader.js';
import { SheetLoader } from './sheet.loader.js';
import { SpawnLoader } from './spawn.loader.js';
import { VesselLoader } from './vessel.loader.js';

const all = [
  RecordStore,
  HistoryService,
  PersonLoader,
  FishLoader,
  HandOverLoader,
  SpawnLoader,
  LineLoader,
  ScoreLoader,
  SheetLoader,
  PairingLoader,
  GenotypeLoader,
  CareLoader,
  DealLoader,
  ShowLoader,
  PhotoLoader,
  PurposeLoader,
  RoundLoader,
  PartsLoader,
  RightsLoader,
  VesselLoader,
];

/** The one place through which records are read and written. */
@Module({ providers: all, exports: all })
export class StockModule {}
