import { DAY } from '@linewright/care';
import { randomUUID } from 'node:crypto';
import { Inject, Injectable } from '@nestjs/common';
import type { Request, Response } from 'express';
import { DataSource, type EntityManager, MoreThan } from 'typeorm';
import type { AccountRole } from '../access/actor.js';
import { Clock } from '../clock/clock.js';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { InstallStateRow } from '../database/install-state.entity.js';
import { RequestError, fieldError, notFound } from '../errors/request-error.js';
import { endLineGrants } from '../stock/grant-rows.js';
import { accountNamed, pairedPeople, peopleByName } from '../stock/people-rows.js';
import {
  CredentialRow,
  InvitationRow,
  PersonRow,
  SessionRow,
} from '../stock/rows/person.entity.js';
import type {
  AcceptInvitationInput,
  AccountModel,
  InvitationModel,
  InvitePersonInput,
  NewInvitationModel,
} from './account.model.js';
import { entering } from './entering.js';
import { expectGoodPassword } from './password-rules.js';
import { SessionService } from './session.service.js';
import { hashToken, newToken } from './tokens.js';
import { endWaysIn } from './ways-in.js';

const INVITED_DAYS = 7;
/** What the token follows: a browser sends nothing behind a "#" to any server. */
const LINK = '/join#';

/** Somebody who is no account any more, or never was one. */
const noAccount = (id: string): RequestError => notFound('account', id);

const hasRole = (row: PersonRow): row is PersonRow & { role: AccountRole } => row.role !== null;

/** Who may sign in here: let in by a link of one use, and let go. */
@Injectable()
export class InvitationsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly sessions: SessionService,
    private readonly clock: Clock,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  /** Everybody who may sign in or was invited to, the owner first, then by name. */
  async accounts(): Promise<AccountModel[]> {
    return this.accountsIn(this.dataSource.manager);
  }

  /** Makes the account and its link; a person on record takes theirs up, somebody new is put on record. */
  invite(input: InvitePersonInput): Promise<NewInvitationModel> {
    const name = input.name.trim();
    if (name === '')
      throw fieldError({ field: 'name', message: 'Give the name under which they will sign in.' });
    if (input.role === 'owner')
      throw fieldError({ field: 'role', message: 'There is one owner: invite a partner instead.' });
    return this.dataSource.transaction(async (m) => {
      await this.oneAtATime(m);
      const given = input.personId ?? null;
      const id = given ?? randomUUID();
      const known = given === null ? null : await m.findOneBy(PersonRow, { id });
      if (given !== null && (known === null || known.erasedAt !== null))
        throw notFound('person', id);
      if (known !== null && known.role !== null)
        throw fieldError({
          field: 'personId',
          message: `${known.name} has an account here already: make a new link for it.`,
        });
      await this.putAccount(m, { id, name, role: input.role });
      return this.linkFor(m, id);
    });
  }

  /**
   * The account of a partner who has an install of their own, known by the id that they have there: what is granted to it goes to that
   * install. Nobody can sign in with it until a link is made for it.
   *
   * @returns the id it has here: another one where the person with that id keeps these records themselves
   */
  partnerElsewhere(personId: string, given: string): Promise<string> {
    return this.dataSource.transaction(async (m) => {
      await this.oneAtATime(m);
      const known = await m.findOneBy(PersonRow, { id: personId });
      if (known?.role === 'partner') return personId;
      // Who was erased here and comes back is somebody new.
      const isFree = known === null || (known.role === null && known.erasedAt === null);
      const id = isFree ? personId : randomUUID();
      await this.putAccount(m, { id, name: given.trim(), role: 'partner' });
      return id;
    });
  }

  private async putAccount(
    m: EntityManager,
    account: { readonly id: string; readonly name: string; readonly role: AccountRole },
  ): Promise<void> {
    if ((await accountNamed(m, account.name)) !== null)
      throw fieldError({
        field: 'name',
        message: `"${account.name}" is the name of an account here already: choose another name, so that the two are told apart.`,
      });
    await m.upsert(PersonRow, { ...account, here: false }, ['id']);
  }

  /** A new link for an account that is not the owner's; the one before ends. */
  renew(personId: string): Promise<NewInvitationModel> {
    return this.dataSource.transaction(async (m) => {
      await this.lesserAccount(m, personId);
      return this.linkFor(m, personId);
    });
  }

  /** The account, its link, its sessions, its other ways in and what was granted to it end; the person stays in the records. */
  end(personId: string): Promise<void> {
    // Past the door: keepers may have granted lines to it that the owner does not see.
    return entering(this.dataSource, (outside) =>
      outside.transaction(async (m) => {
        await this.lesserAccount(m, personId);
        for (const rows of [InvitationRow, CredentialRow]) await m.delete(rows, { personId });
        await endWaysIn(m, personId);
        await endLineGrants(m, { accountId: personId });
        await m.update(PersonRow, { id: personId }, { role: null });
      }),
    );
  }

  /** @throws RequestError `NOT_FOUND` in the same words for a link that was used, ended or never was. */
  async opened(token: string): Promise<InvitationModel> {
    const { person, expiresAt } = await entering(this.dataSource, (m) => this.open(m, token));
    const owner = await entering(this.dataSource, (m) => m.findOneBy(PersonRow, { here: true }));
    return { name: person.name, ownerName: owner?.name ?? '', expiresAt };
  }

  /** Gives the account its password, ends the link and every other way in of before, and signs in. */
  async accept(
    req: Request,
    res: Response,
    { token, password }: AcceptInvitationInput,
  ): Promise<void> {
    this.sessions.expectSafeConnection(req, this.config);
    const { person } = await entering(this.dataSource, (m) => this.open(m, token));
    await expectGoodPassword(password, person.name);
    const passwordHash = await this.sessions.hashPassword(password);
    await entering(this.dataSource, (outside) =>
      outside.transaction(async (m) => {
        await this.oneAtATime(m);
        // Of two who open it at once, one gets in.
        const { person: still } = await this.open(m, token);
        await m.delete(InvitationRow, { personId: still.id });
        await m.upsert(CredentialRow, { personId: still.id, passwordHash }, ['personId']);
        await endWaysIn(m, still.id);
      }),
    );
    await this.sessions.open(req, res, person);
  }

  private async open(
    m: EntityManager,
    token: string,
  ): Promise<{ person: PersonRow; expiresAt: Date }> {
    const invitation = await m.findOneBy(InvitationRow, {
      tokenHash: hashToken(token),
      expiresAt: MoreThan(this.clock.now()),
    });
    if (invitation !== null) {
      const person = await m.findOneByOrFail(PersonRow, { id: invitation.personId });
      return { person, expiresAt: invitation.expiresAt };
    }
    throw new RequestError(
      'NOT_FOUND',
      'This link does not open: it was used, it has ended, or part of it is missing. Ask for a new one.',
    );
  }

  private async linkFor(m: EntityManager, personId: string): Promise<NewInvitationModel> {
    const token = newToken();
    const now = this.clock.now();
    const expiresAt = new Date(now.getTime() + INVITED_DAYS * DAY);
    const row = { personId, tokenHash: hashToken(token), createdAt: now, expiresAt };
    await m.upsert(InvitationRow, row, ['personId']);
    const account = (await this.accountsIn(m)).find(({ person }) => person.id === personId);
    if (account === undefined) throw noAccount(personId);
    return { account, path: `${LINK}${token}`, expiresAt };
  }

  private async accountsIn(m: EntityManager): Promise<AccountModel[]> {
    const now = this.clock.now();
    const people = (await peopleByName(m)).filter(hasRole);
    const [joined, paired, invitations, sessions] = await Promise.all([
      m.find(CredentialRow, { select: { personId: true } }),
      pairedPeople(m),
      m.findBy(InvitationRow, { expiresAt: MoreThan(now) }),
      m.find(SessionRow, { where: { expiresAt: MoreThan(now) }, order: { seenAt: 'DESC' } }),
    ]);
    return people.map(({ id, name, here, role }) => {
      const theirs = (row: { personId: string }): boolean => row.personId === id;
      return {
        person: { id, name, here },
        role,
        invitedUntil: invitations.find(theirs)?.expiresAt ?? null,
        joined: joined.some(theirs),
        paired: paired.includes(id),
        lastSeen: sessions.find(theirs)?.seenAt ?? null,
      };
    });
  }

  private async lesserAccount(m: EntityManager, personId: string): Promise<PersonRow> {
    await this.oneAtATime(m);
    const person = await m.findOneBy(PersonRow, { id: personId });
    if (person === null || person.role === null) throw noAccount(personId);
    if (person.role === 'owner')
      throw new RequestError(
        'NOT_ALLOWED',
        'The owner stays: a lost password is set with "npm run password" on the machine itself.',
      );
    return person;
  }

  /** Names are taken once: whoever makes, renews or takes up an account waits for the one before. */
  private oneAtATime(m: EntityManager): Promise<InstallStateRow> {
    return m.findOneOrFail(InstallStateRow, {
      where: { id: 1 },
      lock: { mode: 'pessimistic_write' },
    });
  }
}
