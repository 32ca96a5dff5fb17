import { Module } from '@nestjs/common';
import { AccountsModule } from '../accounts/accounts.module.js';
import { FishActsResolver } from '../fish/fish-acts.resolver.js';
import { FishActsService } from '../fish/fish-acts.service.js';
import { FishFieldsResolver } from './fish-fields.resolver.js';
import { FishLoader } from '../stock/fish.loader.js';
import { FishResolver } from '../fish/fish.resolver.js';
import { FishService } from '../fish/fish.service.js';
import { FishTogetherService } from '../fish/fish-together.service.js';
import { CrossesService } from '../heredity/crosses.service.js';
import { GenotypesService } from '../loci/genotypes.service.js';
import { LociModule } from '../loci/loci.module.js';
import { HeredityResolver } from '../heredity/heredity.resolver.js';
import { HistoryModule } from '../history/history.module.js';
import { ExplanationMapper } from '../kinship/explanation.js';
import { KinshipResolver } from '../kinship/kinship.resolver.js';
import { PedigreeService } from '../kinship/pedigree.service.js';
import { SliceService } from '../kinship/slice.service.js';
import { LineLoader } from '../stock/line.loader.js';
import { LinesResolver } from '../lines/lines.resolver.js';
import { LinesService } from '../lines/lines.service.js';
import { JudgingResolver } from '../pairing/judging.resolver.js';
import { JobsModule } from '../jobs/jobs.module.js';
import { JudgingService } from '../pairing/judging.service.js';
import { PairListService } from '../pairing/pair-list.service.js';
import { PairObstaclesLoader } from '../pairing/pair-obstacles.loader.js';
import { PairingLoader } from '../stock/pairing.loader.js';
import { PairingResolver } from '../pairing/pairing.resolver.js';
import { PairingsService } from '../pairing/pairings.service.js';
import { ScoreLoader } from '../stock/score.loader.js';
import { ScoresResolver } from '../scores/scores.resolver.js';
import { ScoresService } from '../scores/scores.service.js';
import { TraitsService } from '../scores/traits.service.js';
import { SpawnEntriesService } from '../spawns/spawn-entries.service.js';
import { SpawnFieldsResolver } from './spawn-fields.resolver.js';
import { SpawnLoader } from '../stock/spawn.loader.js';
import { SpawnsResolver } from '../spawns/spawns.resolver.js';
import { SibsService } from '../spawns/sibs.service.js';
import { SpawnsService } from '../spawns/spawns.service.js';

/** The records: fish, spawns, lines, traits, scores, genotypes and pairings, which all point at one another. */
@Module({
  imports: [AccountsModule, HistoryModule, LociModule, JobsModule],
  providers: [
    FishService,
    FishTogetherService,
    FishActsService,
    FishActsResolver,
    FishLoader,
    FishResolver,
    FishFieldsResolver,
    SpawnsService,
    SpawnEntriesService,
    SibsService,
    SpawnLoader,
    SpawnsResolver,
    SpawnFieldsResolver,
    LinesService,
    LineLoader,
    LinesResolver,
    TraitsService,
    ScoresService,
    ScoreLoader,
    ScoresResolver,
    GenotypesService,
    CrossesService,
    HeredityResolver,
    PedigreeService,
    SliceService,
    ExplanationMapper,
    KinshipResolver,
    PairingsService,
    PairingLoader,
    PairingResolver,
    JudgingService,
    JudgingResolver,
    PairListService,
    PairObstaclesLoader,
  ],
  exports: [
    GenotypesService,
    PedigreeService,
    FishLoader,
    LineLoader,
    LinesService,
    SpawnLoader,
    SpawnsService,
    PairingLoader,
    SpawnEntriesService,
    ScoreLoader,
    ScoresService,
    TraitsService,
  ],
})
export class RecordsModule {}
