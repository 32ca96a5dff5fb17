import { randomUUID } from 'node:crypto';
import { isIP } from 'node:net';
import { Inject, Injectable } from '@nestjs/common';
import {
  type AuthenticationResponseJSON,
  generateAuthenticationOptions,
  generateRegistrationOptions,
  type RegistrationResponseJSON,
  verifyAuthenticationResponse,
  verifyRegistrationResponse,
} from '@simplewebauthn/server';
import type { Request, Response } from 'express';
import { DataSource, IsNull, LessThan, MoreThan } from 'typeorm';
import { Clock } from '../clock/clock.js';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { RequestError, fieldError, notFound } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { entering } from './entering.js';
import { PersonRow } from '../stock/rows/person.entity.js';
import { PasskeyChallengeRow, PasskeyRow } from '../stock/rows/way-in.entity.js';
import { SessionService } from './session.service.js';
import type { PasskeyAnswerInput, PasskeyModel, PasskeyOfferModel } from './ways-in.model.js';

/** How long a device has to answer. */
const MINUTES = 5;

const refused = (why: string): RequestError => new RequestError('PASSKEY_REFUSED', why);

const NOT_TAKEN =
  'That passkey was not taken: it is not known here, or it took too long. Try again, or sign in with your password.';

/** The address by which the browser came, as a passkey is bound to it. */
const siteOf = (req: Request): { rpID: string; origin: string } => {
  const host = req.headers.host ?? '';
  const origin = `${req.protocol}://${host}`;
  if (URL.canParse(origin)) {
    const { hostname, port } = new URL(origin);
    if (isIP(hostname.replace(/^\[|\]$/g, '')) === 0) return { rpID: hostname, origin };
    throw refused(
      `Passkeys are bound to an address with a name, and ${hostname} has none: on the machine itself open http://localhost${port === '' ? '' : `:${port}`}; from elsewhere, the name of your TLS proxy.`,
    );
  }
  throw refused('Passkeys are bound to an address with a name, and the browser gave none.');
};

/** Passkeys (WebAuthn): a key pair on a person's own device, in place of password and code. */
@Injectable()
export class PasskeysService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly sessions: SessionService,
    private readonly clock: Clock,
    @Inject(CONFIG) private readonly config: Config,
  ) {}

  /** Those of a person, the oldest first. */
  of(personId: string): Promise<PasskeyModel[]> {
    return entering(this.dataSource, (m) =>
      m.find(PasskeyRow, { where: { personId }, order: { createdAt: 'ASC' } }),
    );
  }

  /** What a device is asked to make a passkey for. */
  async offer(req: Request, { id, name }: SignedInPerson): Promise<PasskeyOfferModel> {
    const { rpID } = siteOf(req);
    const known = await entering(this.dataSource, (m) => m.findBy(PasskeyRow, { personId: id }));
    const options = await generateRegistrationOptions({
      rpName: 'Linewright',
      rpID,
      userName: name,
      userDisplayName: name,
      userID: new TextEncoder().encode(id),
      attestationType: 'none',
      excludeCredentials: known.map(({ credentialId, transports }) => ({
        id: credentialId,
        transports,
      })),
      // Found without a name, and opened by what only its owner has: so that it stands for both steps.
      authenticatorSelection: { residentKey: 'required', userVerification: 'required' },
    });
    return this.kept(options, id);
  }

  /** Keeps the passkey that the device made. */
  async add(
    req: Request,
    personId: string,
    name: string,
    { id, answer }: PasskeyAnswerInput,
  ): Promise<void> {
    if (name.trim() === '')
      throw fieldError({ field: 'name', message: 'Name the device, so that you know it again.' });
    const { rpID, origin } = siteOf(req);
    const expectedChallenge = await this.taken(id, personId);
    const { credential } = await this.verified(async () => {
      const { registrationInfo } = await verifyRegistrationResponse({
        response: JSON.parse(answer) as RegistrationResponseJSON,
        expectedChallenge,
        expectedOrigin: origin,
        expectedRPID: rpID,
      });
      return registrationInfo;
    });
    await entering(this.dataSource, (m) =>
      m.insert(PasskeyRow, {
        id: randomUUID(),
        credentialId: credential.id,
        ...{ personId, name: name.trim() },
        publicKey: Buffer.from(credential.publicKey),
        counter: String(credential.counter),
        transports: credential.transports ?? [],
        createdAt: this.clock.now(),
        usedAt: null,
      }),
    );
  }

  /** @throws RequestError `NOT_FOUND` for one that is somebody else's, or nowhere. */
  async remove(personId: string, id: string): Promise<void> {
    const { affected } = await entering(this.dataSource, (m) =>
      m.delete(PasskeyRow, { id, personId }),
    );
    if (affected === 0) throw notFound('passkey', id);
  }

  /** What a device is asked to sign by whoever signs in; it says whose it is. */
  async ask(req: Request): Promise<PasskeyOfferModel> {
    const { rpID } = siteOf(req);
    return this.kept(
      await generateAuthenticationOptions({ rpID, userVerification: 'required' }),
      null,
    );
  }

  /** Signs in whose passkey it is. */
  async signIn(req: Request, res: Response, { id, answer }: PasskeyAnswerInput): Promise<void> {
    this.sessions.expectSafeConnection(req, this.config);
    const { rpID, origin } = siteOf(req);
    const attempt = await this.sessions.noteAttempt(req);
    const expectedChallenge = await this.taken(id, null);
    const person = await this.verified(async () => {
      const response = JSON.parse(answer) as AuthenticationResponseJSON;
      const known = await entering(this.dataSource, (m) =>
        m.findOneBy(PasskeyRow, { credentialId: response.id }),
      );
      if (known === null) return undefined;
      const { verified, authenticationInfo } = await verifyAuthenticationResponse({
        response,
        expectedChallenge,
        expectedOrigin: origin,
        expectedRPID: rpID,
        credential: {
          id: known.credentialId,
          publicKey: new Uint8Array(known.publicKey),
          counter: Number(known.counter),
        },
      });
      return verified ? this.used(known, authenticationInfo.newCounter) : undefined;
    });
    await this.sessions.forgetAttempt(attempt);
    await this.sessions.open(req, res, person);
  }

  private used({ id, personId }: PasskeyRow, counter: number): Promise<PersonRow | undefined> {
    return entering(this.dataSource, async (m) => {
      await m.update(PasskeyRow, { id }, { counter: String(counter), usedAt: this.clock.now() });
      return (await m.findOneBy(PersonRow, { id: personId })) ?? undefined;
    });
  }

  /** Whatever is wrong with an answer, whoever sent it learns no more than that. */
  private async verified<Answer>(work: () => Promise<Answer | undefined>): Promise<Answer> {
    const answer = await work().catch(() => undefined);
    if (answer === undefined) throw refused(NOT_TAKEN);
    return answer;
  }

  private async kept(
    options: { readonly challenge: string },
    personId: string | null,
  ): Promise<PasskeyOfferModel> {
    const id = randomUUID();
    const now = this.clock.now();
    const expiresAt = new Date(now.getTime() + MINUTES * 60_000);
    await entering(this.dataSource, async (m) => {
      await m.delete(PasskeyChallengeRow, { expiresAt: LessThan(now) });
      await m.insert(PasskeyChallengeRow, {
        ...{ id, challenge: options.challenge, personId, expiresAt },
      });
    });
    return { id, options: JSON.stringify(options) };
  }

  /** A challenge is answered once. */
  private async taken(id: string, personId: string | null): Promise<string> {
    const where = { id, personId: personId ?? IsNull(), expiresAt: MoreThan(this.clock.now()) };
    const challenge = await entering(this.dataSource, async (m) => {
      const row = await m.findOneBy(PasskeyChallengeRow, where);
      const { affected } = await m.delete(PasskeyChallengeRow, { id });
      return affected === 1 ? row?.challenge : undefined;
    });
    if (challenge === undefined) throw refused(NOT_TAKEN);
    return challenge;
  }
}
