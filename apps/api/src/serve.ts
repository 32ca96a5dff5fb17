import 'reflect-metadata';
import type { RequestListener } from 'node:http';
import { fileURLToPath } from 'node:url';
import { NestFactory } from '@nestjs/core';
import { GraphQLSchemaHost } from '@nestjs/graphql';
import type { NestExpressApplication } from '@nestjs/platform-express';
import type { NextFunction, Request, Response } from 'express';
import { asSystem, awaitActor } from './access/acting.js';
import { AccountsService } from './accounts/accounts.service.js';
import { AppModule } from './app.module.js';
import { SessionService } from './accounts/session.service.js';
import { rememberZone } from './clock/asking-zone.js';
import { rememberAnswers } from './graphql/once-a-request.js';
import { fileOperations } from './graphql/work-costs.js';
import { watchAsker } from './jobs/asker.js';
import { machineClock } from './clock/machine-clock.js';
import { type Config, ConfigError } from './config/config.js';
import { openDatabase } from './stock/open-database.js';
import { expectHost, readBodies } from './entrance/entrance.js';
import { smallerAnswers, viewerPages } from './entrance/pages.js';
import { isForThisMachineOnly } from './config/reach.js';
import { HomeNetworkService } from './home-network/home-network.service.js';
import { RequestErrorFilter } from './errors/request-error.filter.js';

export interface Served {
  readonly url: string;
  /** Where the records lie, as whoever owns the tables: the policies do not hold it. */
  readonly databaseUrl: string;
  readonly app: NestExpressApplication;
  close(): Promise<void>;
}

/** The built viewer, from the bundle (`apps/api/dist`) and from the source (`apps/api/src`) alike. */
const viewerFolder = fileURLToPath(new URL('../../viewer/dist', import.meta.url));

const securityHeaders = (_req: Request, res: Response, next: NextFunction): void => {
  res.setHeader('X-Content-Type-Options', 'nosniff');
  res.setHeader('Referrer-Policy', 'same-origin');
  res.setHeader('X-Frame-Options', 'DENY');
  res.setHeader(
    'Content-Security-Policy',
    "default-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; object-src 'none'; worker-src 'self'; manifest-src 'self'; base-uri 'self'; frame-ancestors 'none'",
  );
  next();
};

/** An install reachable from elsewhere without a password would be anyone's. */
const expectPassword = async (
  config: Config,
  accounts: AccountsService,
  log: (line: string) => void,
): Promise<void> => {
  const owner = await accounts.owner();
  if (config.ownerPassword !== undefined) {
    if (owner === null) await accounts.createOwner('Owner', config.ownerPassword);
    else if (!(await accounts.hasPassword(owner.id)))
      await accounts.setPassword(owner.id, config.ownerPassword);
    else
      log(
        'OWNER_PASSWORD sets the first password only, and there is one: it stays as it is. "npm run password" sets a new one.',
      );
    return;
  }
  if (owner === null) {
    log(`First start from another machine needs this code: ${accounts.firstStartCode}`);
    return;
  }
  if (isForThisMachineOnly(config) || (await accounts.hasPassword(owner.id))) return;
  const [name, told] = config.trustProxy
    ? ['TRUST_PROXY', 'TRUST_PROXY is set, so other machines can reach this through the proxy']
    : ['HOST', `HOST is "${config.host}", which other machines can reach`];
  throw new ConfigError(
    name,
    `${told}, and no password is set: start once without ${name} and set one, or give OWNER_PASSWORD for this start.`,
  );
};

/** Opens the database, builds the API around it and listens. Told by its signal to stop, it leaves nothing running and throws the signal's reason; `onGone` hears of a database that cannot be brought back. */
export const serve = async (
  config: Config,
  log: (line: string) => void,
  signal?: AbortSignal,
  onGone: (error: unknown) => void = () => undefined,
  clock = machineClock(config.testClockAhead),
): Promise<Served> => {
  const database = await openDatabase(config, log, signal);
  database.watch({
    onLost: () => log('The database server is gone: starting it again.'),
    onBack: () => log('The database server is back.'),
    onGivenUp: onGone,
  });
  try {
    const app = await NestFactory.create<NestExpressApplication>(
      AppModule.with(config, database.dataSource, clock),
      {
        logger: ['error', 'warn'],
        bodyParser: false,
        abortOnError: false,
      },
    );
    if (config.trustProxy) app.set('trust proxy', 1);
    app.getHttpAdapter().getInstance().disable('x-powered-by');
    app.use(securityHeaders);
    app.use(smallerAnswers());
    app.use(rememberZone);
    app.use(rememberAnswers);
    app.use(watchAsker);
    app.use(awaitActor);
    const homeNetwork = app.get(HomeNetworkService, { strict: false });
    app.use(expectHost(config, () => homeNetwork.names()));
    const files = (): ReadonlySet<string> => fileOperations(app.get(GraphQLSchemaHost).schema);
    app.use(readBodies(app.get(SessionService, { strict: false }), files));
    app.useGlobalFilters(new RequestErrorFilter());
    for (const pages of viewerPages(viewerFolder)) app.use(pages);
    await asSystem('entrance', () => expectPassword(config, app.get(AccountsService), log));
    signal?.throwIfAborted();
    await app.listen(config.port, config.host);
    await homeNetwork.begin(app.getHttpAdapter().getInstance() as RequestListener);
    const address = app.getHttpServer().address() as { port: number };
    const host = config.host.includes(':') ? `[${config.host}]` : config.host;
    return {
      url: `http://${host}:${address.port}`,
      databaseUrl: database.ownerUrl,
      app,
      close: async () => {
        try {
          await app.close();
        } finally {
          await database.close();
        }
      },
    };
  } catch (error) {
    await database.close();
    throw error;
  }
};
