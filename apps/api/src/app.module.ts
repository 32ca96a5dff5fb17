import { ApolloDriver, type ApolloDriverConfig } from '@nestjs/apollo';
import { type DynamicModule, Module } from '@nestjs/common';
import { APP_GUARD } from '@nestjs/core';
import { GraphQLModule } from '@nestjs/graphql';
import { TypeOrmModule } from '@nestjs/typeorm';
import type { DataSource } from 'typeorm';
import { AccountsModule } from './accounts/accounts.module.js';
import { SessionGuard } from './accounts/session.guard.js';
import { BackupModule } from './backup/backup.module.js';
import { CarriersModule } from './carriers/carriers.module.js';
import { CareModule } from './care/care.module.js';
import { ClubModule } from './club/club.module.js';
import { CommentsModule } from './comments/comments.module.js';
import { DealsModule } from './deals/deals.module.js';
import type { Clock } from './clock/clock.js';
import { ClockModule } from './clock/clock.module.js';
import type { Config } from './config/config.js';
import { ConfigModule } from './config/config.module.js';
import { dataSourceOptions } from './stock/data-source.js';
import { DemoModule } from './demo/demo.module.js';
import { EntriesModule } from './entries/entries.module.js';
import { formatError } from './errors/format-error.js';
import { ImportAndExportModule } from './import-and-export/import-and-export.module.js';
import { boundSchema } from './graphql/bounded-schema.js';
import { InstantScalar } from './graphql/instant.scalar.js';
import { MOST_TOKENS, protection } from './graphql/limits.js';
import { HealthController } from './health.controller.js';
import { HomeNetworkModule } from './home-network/home-network.module.js';
import { HistoryModule } from './history/history.module.js';
import { MeritModule } from './merit/merit.module.js';
import { LineHealthModule } from './line-health/line-health.module.js';
import { RelationshipModule } from './relationship/relationship.module.js';
import { PrintModule } from './print/print.module.js';
import { PhotosModule } from './photos/photos.module.js';
import { LinePurposeModule } from './line-purpose/line-purpose.module.js';
import { KeepingModule } from './keeping/keeping.module.js';
import { RoundsModule } from './rounds/rounds.module.js';
import { LineRoutesModule } from './line-routes/line-routes.module.js';
import { ScoreSheetsModule } from './scores/sheets/score-sheets.module.js';
import { SearchModule } from './search/search.module.js';
import { SharingModule } from './sharing/sharing.module.js';
import { ShowsModule } from './shows/shows.module.js';
import { SurvivalModule } from './survival/survival.module.js';
import { VesselsModule } from './vessels/vessels.module.js';
import { WaterModule } from './water/water.module.js';
import { StockModule } from './stock/stock.module.js';
import { KinshipModule } from './kinship/kinship.module.js';
import { LociModule } from './loci/loci.module.js';
import { SpawnsModule } from './spawns/spawns.module.js';
import { FishModule } from './fish/fish.module.js';
import { GrantsModule } from './grants/grants.module.js';
import { HandOverModule } from './hand-over/hand-over.module.js';
import { LinesModule } from './lines/lines.module.js';
import { ScoresModule } from './scores/scores.module.js';
import { HeredityModule } from './heredity/heredity.module.js';
import { OwnDataModule } from './own-data/own-data.module.js';
import { PairingModule } from './pairing/pairing.module.js';
import { SchemaModule } from './schema/schema.module.js';

const graphqlModule = (): DynamicModule =>
  GraphQLModule.forRoot<ApolloDriverConfig>({
    driver: ApolloDriver,
    autoSchemaFile: true,
    sortSchema: true,
    transformSchema: boundSchema,
    buildSchemaOptions: {
      scalarsMap: [{ type: Date, scalar: InstantScalar }],
      // At every start the schema would be asked for all it has, to find faults that tests/api/schema finds once.
      skipCheck: true,
    },
    path: '/graphql',
    introspection: true,
    graphiql: false,
    playground: false,
    includeStacktraceInErrorResponses: false,
    csrfPrevention: true,
    context: ({ req, res }: { req: unknown; res: unknown }) => ({ req, res }),
    formatError,
    parseOptions: { maxTokens: MOST_TOKENS },
    ...protection(),
  });

const rooms = [
  AccountsModule,
  HomeNetworkModule,
  HistoryModule,
  StockModule,
  KinshipModule,
  LociModule,
  SpawnsModule,
  FishModule,
  GrantsModule,
  HandOverModule,
  ClubModule,
  CommentsModule,
  DealsModule,
  ShowsModule,
  LinesModule,
  LinePurposeModule,
  ScoresModule,
  HeredityModule,
  PairingModule,
  KeepingModule,
  RoundsModule,
  LineRoutesModule,
  SchemaModule,
  LineHealthModule,
  RelationshipModule,
  MeritModule,
  ScoreSheetsModule,
  PhotosModule,
  ImportAndExportModule,
  SearchModule,
  SharingModule,
  CareModule,
  DemoModule,
  CarriersModule,
  EntriesModule,
  WaterModule,
  VesselsModule,
  SurvivalModule,
  PrintModule,
  BackupModule,
  OwnDataModule,
];

/** The API around a database that is already open. */
@Module({})
export class AppModule {
  static with(config: Config, dataSource: DataSource, clock: Clock): DynamicModule {
    return {
      module: AppModule,
      imports: [
        ConfigModule.with(config),
        ClockModule.with(clock),
        TypeOrmModule.forRootAsync({
          useFactory: () => dataSourceOptions(''),
          dataSourceFactory: () => Promise.resolve(dataSource),
        }),
        graphqlModule(),
        ...rooms,
      ],
      controllers: [HealthController],
      providers: [{ provide: APP_GUARD, useClass: SessionGuard }],
    };
  }
}
