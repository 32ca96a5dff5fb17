import { DAY } from '@linewright/care';
import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { hash, verify } from '@node-rs/argon2';
import type { Request, Response } from 'express';
import {
  DataSource,
  type EntityTarget,
  LessThan,
  MoreThan,
  Not,
  type ObjectLiteral,
  type Repository,
} from 'typeorm';
import { asSystem } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { RequestError, notFound } from '../errors/request-error.js';
import type { Config } from '../config/config.js';
import { isFromThisMachine } from '../config/reach.js';
import { isUuid } from '../limits/is-uuid.js';
import { accountWithId } from './known-accounts.js';
import { deviceName } from './device-name.js';
import { hashToken, newToken, SEEN_EVERY } from './tokens.js';
import {
  connectionIsSecure,
  reachedBy,
  readBearer,
  readCookie,
  sessionCookie,
} from './connection.js';
import { ProgramTokens } from './program-tokens.service.js';
import { endWaysIn } from './ways-in.js';
import { CredentialRow, type PersonRow, SessionRow } from '../stock/rows/person.entity.js';
import type { OpenSessionModel } from './account.model.js';
import { type AttemptLimit, RefusedAttempts } from './refused-attempts.service.js';

const SESSION_DAYS = 30;
const signIns: AttemptLimit = { what: 'sign-in', allowed: 10, minutes: 10 };

/** argon2id; 19 MiB, two passes, one lane: the first choice of RFC 9106's successors for interactive sign-in. */
const argon = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

/** In place of a password that there is none of, so that a name nobody bears takes as long to refuse as a wrong password. */
const NO_PASSWORD =
  '$argon2id$v=19$m=19456,t=2,p=1$DsE17mBPneMl7IYfglovnw$rabWZV65Ouy9qcofQ8gCjtxIkHTHYLIIMEij8Htc5pc';
/** Header by which the owner says as which partner they look. */
const SEEN_AS = 'linewright-seen-as';

/** Server-side sessions: the cookie holds a random token, the table its hash. */
@Injectable()
export class SessionService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly attempts: RefusedAttempts,
    private readonly tokens: ProgramTokens,
    private readonly clock: Clock,
  ) {}

  hashPassword(password: string): Promise<string> {
    return hash(password, argon);
  }

  /** The person of the request's session, or `null`; looked up once a request. */
  async personOf(
    req: Request & { person?: SignedInPerson | null },
  ): Promise<SignedInPerson | null> {
    if (req.person !== undefined) return req.person;
    const secret = readBearer(req);
    if (secret !== undefined) return (req.person = await this.programOf(secret));
    const token = readCookie(req);
    const person = token === undefined ? null : await this.lookUp(token);
    req.person = person?.role === 'owner' ? await this.seenAs(req, person) : person;
    return req.person;
  }

  /** A program asks as the person whose token it has, and may do what that lets it. */
  private async programOf(secret: string): Promise<SignedInPerson | null> {
    const token = await this.tokens.opened(secret);
    if (token === null) return null;
    const account = await asSystem('entrance', () =>
      accountWithId(this.dataSource, token.personId),
    );
    return account && { ...account, program: { mayRecord: token.mayRecord } };
  }

  /** The owner may look at what a partner sees, as that partner and by the same rules. */
  private async seenAs(req: Request, owner: SignedInPerson): Promise<SignedInPerson> {
    const id = req.headers[SEEN_AS];
    if (typeof id !== 'string') return owner;
    const account = isUuid(id)
      ? await asSystem('entrance', () => accountWithId(this.dataSource, id))
      : null;
    if (account?.role === 'partner') return { ...account, looking: true };
    throw notFound('partner', id);
  }

  private async lookUp(token: string): Promise<SignedInPerson | null> {
    const session = await this.in(SessionRow, (rows) =>
      rows.findOneBy({ idHash: hashToken(token), expiresAt: MoreThan(this.clock.now()) }),
    );
    if (session === null) return null;
    await this.noteSeen(session);
    return asSystem('entrance', () => accountWithId(this.dataSource, session.personId));
  }

  private async noteSeen({ idHash, seenAt }: SessionRow): Promise<void> {
    const now = this.clock.now();
    if (Math.abs(now.getTime() - seenAt.getTime()) < SEEN_EVERY) return;
    await this.in(SessionRow, (rows) => rows.update({ idHash }, { seenAt: now }));
  }

  /** `null` stands for a name that nobody here bears: refused like a wrong password, in the same words and time. */
  async verifyPassword(req: Request, personId: string | null, password: string): Promise<void> {
    const attempt = await this.noteAttempt(req);
    const credential =
      personId === null
        ? null
        : await this.in(CredentialRow, (rows) => rows.findOneBy({ personId }));
    const right = await verify(credential?.passwordHash ?? NO_PASSWORD, password);
    if (credential !== null && right) {
      await this.attempts.forget(attempt);
      return;
    }
    throw new RequestError(
      'PASSWORD_WRONG',
      'That name and password do not go together: check the spelling and capitals, and try again.',
    );
  }

  /** Noted before a secret is looked at: guesses sent all at once are counted too. */
  async noteAttempt(req: Request): Promise<string> {
    const attempt = await this.attempts.note(signIns, req.ip ?? 'unknown');
    if (attempt !== null) return attempt;
    throw new RequestError(
      'TOO_MANY_ATTEMPTS',
      `Too many refused sign-ins from this address: wait ${signIns.minutes} minutes.`,
    );
  }

  /** It turned out to be a good one. */
  forgetAttempt(attempt: string): Promise<void> {
    return this.attempts.forget(attempt);
  }

  async open(
    req: Request & { person?: SignedInPerson | null },
    res: Response,
    person: PersonRow,
  ): Promise<void> {
    const token = newToken();
    const now = this.clock.now();
    const expiresAt = new Date(now.getTime() + SESSION_DAYS * DAY);
    const device = deviceName(req.headers['user-agent']);
    await this.in(SessionRow, async (rows) => {
      const opened = { id: randomUUID(), createdAt: now, seenAt: now, expiresAt, device };
      await rows.insert({ idHash: hashToken(token), personId: person.id, ...opened });
      await rows.delete({ expiresAt: LessThan(now) });
    });
    res.setHeader(
      'Set-Cookie',
      sessionCookie(token, (SESSION_DAYS * DAY) / 1000, { secure: connectionIsSecure(req) }),
    );
    req.person = await asSystem('entrance', () => accountWithId(this.dataSource, person.id));
  }

  async close(req: Request & { person?: SignedInPerson | null }, res: Response): Promise<void> {
    const token = readCookie(req);
    if (token !== undefined) {
      await this.in(SessionRow, (rows) => rows.delete({ idHash: hashToken(token) }));
    }
    res.setHeader('Set-Cookie', sessionCookie('', 0, { secure: connectionIsSecure(req) }));
    // Pictures are kept by the browser for as long as it likes: whoever uses it next must not find them.
    res.setHeader('Clear-Site-Data', '"cache"');
    req.person = null;
  }

  /** A new password ends what was opened with the old one, except the session it was changed in. */
  async closeOthers(req: Request, personId: string): Promise<void> {
    const token = readCookie(req);
    const others = token === undefined ? {} : { idHash: Not(hashToken(token)) };
    await this.in(SessionRow, (rows) => rows.delete({ personId, ...others }));
  }

  /** Browsers in which a person is signed in, the one that asks first, then by when they were last here. */
  async openOf(req: Request, personId: string): Promise<OpenSessionModel[]> {
    const token = readCookie(req);
    const own = token === undefined ? null : hashToken(token);
    const rows = await this.in(SessionRow, (sessions) =>
      sessions.find({
        where: { personId, expiresAt: MoreThan(this.clock.now()) },
        order: { seenAt: 'DESC' },
      }),
    );
    return rows
      .map(({ id, device, createdAt, seenAt, idHash }) => ({
        ...{ id, device, openedAt: createdAt, seenAt },
        current: idHash === own,
      }))
      .sort((a, b) => Number(b.current) - Number(a.current));
  }

  /** Ends one session of a person; one that is of somebody else, or nowhere, is not found. */
  async end(personId: string, id: string): Promise<void> {
    const { affected } = await this.in(SessionRow, (rows) => rows.delete({ id, personId }));
    if (affected === 0) throw notFound('session', id);
  }

  /** Ends every session of a person and every other way in, and forgets the sign-ins that were refused. */
  async closeAll(personId: string): Promise<void> {
    await asSystem('entrance', () => this.dataSource.transaction((m) => endWaysIn(m, personId)));
    await this.attempts.forgetAll(signIns);
  }

  /** Passwords travel only over TLS, over loopback, or where the owner allowed plain HTTP by name. */
  expectSafeConnection(req: Request, config: Config): void {
    if (config.plainHttp || connectionIsSecure(req)) return;
    if (isFromThisMachine(reachedBy(req), config)) return;
    throw new RequestError(
      'SECURE_CONNECTION_NEEDED',
      'A password is not taken over plain HTTP from another machine: put a TLS proxy in front and set TRUST_PROXY=1, or set PLAIN_HTTP=1 on a network you trust.',
    );
  }

  /** Sessions and accounts are looked up before it is known who asks. */
  private in<Row extends ObjectLiteral, Answer>(
    target: EntityTarget<Row>,
    work: (rows: Repository<Row>) => Promise<Answer>,
  ): Promise<Answer> {
    return asSystem('entrance', () => work(this.dataSource.getRepository(target)));
  }
}
