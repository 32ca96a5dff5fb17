import { randomUUID } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import type { Request, Response } from 'express';
import { DataSource, type EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { seesByGrant } from '../access/actor.js';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { InstallStateRow } from '../database/install-state.entity.js';
import { RequestError, fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { isFromThisMachine } from '../config/reach.js';
import { reachedBy } from './connection.js';
import { firstStartCode, sameCode } from './first-start-code.js';
import { accountNamed, peopleByName } from '../stock/people-rows.js';
import { CredentialRow, PersonRow } from '../stock/rows/person.entity.js';
import { expectGoodPassword } from './password-rules.js';
import type { SessionModel, SetUpInput } from './session.model.js';
import { SecondStepService } from './second-step.service.js';
import { SessionService } from './session.service.js';

type HttpRequest = Request & { person?: SignedInPerson | null };

/** First set-up, signing in and out, and opening the demo. */
@Injectable()
export class AccountsService {
  /** What the console prints while there is no owner: asked for at a first start from another machine. */
  readonly firstStartCode = firstStartCode();

  constructor(
    private readonly dataSource: DataSource,
    private readonly sessions: SessionService,
    private readonly secondStep: SecondStepService,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  async session(req: HttpRequest): Promise<SessionModel> {
    const signedIn = await this.sessions.personOf(req);
    const [owner, state] = await Promise.all([this.owner(), this.state()]);
    const ownerHasPassword = owner !== null && (await this.hasPassword(owner.id));
    const loopback = this.isLocal(req);
    return {
      person:
        signedIn === null
          ? null
          : { id: signedIn.id, name: signedIn.name, here: signedIn.role === 'owner' },
      role: signedIn?.role ?? null,
      looking: signedIn?.looking ?? false,
      ofTheHouse: signedIn !== null && !seesByGrant(signedIn.role),
      setUpNeeded: owner === null,
      codeNeeded: owner === null && !loopback,
      demoOffered: loopback && !ownerHasPassword && (owner === null || state.demo),
      demoOpen: state.demo,
      signedIn: signedIn !== null,
      hasPassword: signedIn === null ? ownerHasPassword : await this.hasPassword(signedIn.id),
      loopback,
    };
  }

  async setUp(
    req: HttpRequest,
    res: Response,
    { personName, password, code }: SetUpInput,
  ): Promise<void> {
    this.sessions.expectSafeConnection(req, this.config);
    if (!this.isLocal(req)) await this.expectCode(req, code ?? '');
    const person = await this.createOwner(personName, password);
    await this.sessions.open(req, res, person);
  }

  /** Makes the owner of an install that has none; on an install without a password, gives it one. */
  async createOwner(personName: string, password: string): Promise<PersonRow> {
    if (personName.trim() === '') {
      throw fieldError({ field: 'personName', message: 'Give the name you keep fish under.' });
    }
    await expectGoodPassword(password, personName);
    const done = new RequestError(
      'SET_UP_DONE',
      'This install has an owner already: sign in instead.',
    );
    // Asked first: hashing costs much, and anyone may ask.
    if ((await this.owner()) !== null) throw done;
    const passwordHash = await this.sessions.hashPassword(password);
    return this.entering((dataSource) =>
      dataSource.transaction(async (manager) => {
        await this.lockState(manager);
        if ((await manager.findOneBy(PersonRow, { here: true })) !== null) throw done;
        const person = await manager.save(
          manager.create(PersonRow, {
            id: randomUUID(),
            name: personName.trim(),
            here: true,
            role: 'owner',
          }),
        );
        await manager.insert(CredentialRow, { personId: person.id, passwordHash });
        return person;
      }),
    );
  }

  /** Whoever finds an open browser cannot lock the owner out: the password so far is asked for. */
  async changePassword(
    req: HttpRequest,
    personId: string,
    password: string,
    current: string | null,
  ): Promise<void> {
    this.sessions.expectSafeConnection(req, this.config);
    if (await this.hasPassword(personId))
      await this.sessions.verifyPassword(req, personId, current ?? '');
    await this.setPassword(personId, password);
    await this.sessions.closeOthers(req, personId);
  }

  /** Gives a person a password, asking nothing: for the start of the server and for whoever asked already. */
  async setPassword(personId: string, password: string): Promise<void> {
    const person = await this.entering((dataSource) =>
      dataSource.getRepository(PersonRow).findOneByOrFail({ id: personId }),
    );
    await expectGoodPassword(password, person.name);
    const passwordHash = await this.sessions.hashPassword(password);
    await this.entering((dataSource) =>
      dataSource.getRepository(CredentialRow).upsert({ personId, passwordHash }, ['personId']),
    );
  }

  /** From the machine itself, for who lost the password: ends every session, second step, passkey and token, and lets refused callers try again. */
  async replacePassword(personId: string, password: string): Promise<void> {
    await this.setPassword(personId, password);
    await this.sessions.closeAll(personId);
  }

  /** The owner may leave the name out; a code is given by whoever set up a second step. */
  async signIn(
    req: HttpRequest,
    res: Response,
    { password, name, code }: { password: string; name: string; code: string | null },
  ): Promise<void> {
    this.sessions.expectSafeConnection(req, this.config);
    const owner = await this.owner();
    if (owner === null) {
      throw new RequestError(
        'SET_UP_NEEDED',
        'This install has no owner yet: set a password first.',
      );
    }
    const person =
      name.trim() === ''
        ? owner
        : await this.entering(({ manager }) => accountNamed(manager, name));
    await this.sessions.verifyPassword(req, person?.id ?? null, password);
    await this.secondStep.expect((person ?? owner).id, code);
    await this.sessions.open(req, res, person ?? owner);
  }

  async signOut(req: HttpRequest, res: Response): Promise<void> {
    await this.sessions.close(req, res);
  }

  /** Opens the demo without a password: on this machine only, and only while nobody has set one. */
  async openDemo(req: HttpRequest, res: Response): Promise<void> {
    this.expectLoopback(req);
    const [owner, state] = await Promise.all([this.owner(), this.state()]);
    if (owner === null || !state.demo) {
      throw new RequestError(
        'NOT_FOUND',
        'There is no demo here: load it first, on an empty database.',
      );
    }
    if (await this.hasPassword(owner.id)) {
      throw new RequestError('SIGN_IN_NEEDED', 'This demo has a password: sign in with it.');
    }
    await this.sessions.open(req, res, owner);
  }

  expectLoopback(req: HttpRequest): void {
    if (this.isLocal(req)) return;
    throw new RequestError(
      'LOOPBACK_ONLY',
      'This works only in a browser on the machine the server runs on (http://127.0.0.1): from elsewhere, sign in with a password.',
    );
  }

  private isLocal(req: HttpRequest): boolean {
    return isFromThisMachine(reachedBy(req), this.config);
  }

  /** Whoever can read the console of the machine is its owner; whoever is first to find the page is not. */
  private async expectCode(req: HttpRequest, code: string): Promise<void> {
    const attempt = await this.sessions.noteAttempt(req);
    if (!sameCode(code, this.firstStartCode)) {
      throw fieldError({
        field: 'code',
        message:
          'A first start from another machine needs the code that the console of the server shows: type it as it stands there.',
      });
    }
    await this.sessions.forgetAttempt(attempt);
  }

  owner(): Promise<PersonRow | null> {
    return this.entering((dataSource) =>
      dataSource.getRepository(PersonRow).findOneBy({ here: true }),
    );
  }

  async hasPassword(personId: string): Promise<boolean> {
    return this.entering((dataSource) =>
      dataSource.getRepository(CredentialRow).existsBy({ personId }),
    );
  }

  people(): Promise<PersonRow[]> {
    return peopleByName(this.dataSource.manager);
  }

  private state(): Promise<InstallStateRow> {
    return this.entering((dataSource) =>
      dataSource.getRepository(InstallStateRow).findOneByOrFail({ id: 1 }),
    );
  }

  /** Before it is known who asks. */
  private entering<Answer>(work: (dataSource: DataSource) => Promise<Answer>): Promise<Answer> {
    return asSystem('entrance', () => work(this.dataSource));
  }

  private async lockState(manager: EntityManager): Promise<void> {
    await manager.findOneOrFail(InstallStateRow, {
      where: { id: 1 },
      lock: { mode: 'pessimistic_write' },
    });
  }
}
