import {
  type CanActivate,
  type ExecutionContext,
  Injectable,
  SetMetadata,
  createParamDecorator,
} from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { GqlExecutionContext } from '@nestjs/graphql';
import type { Request } from 'express';
import { type GraphQLResolveInfo, OperationTypeNode } from 'graphql';
import { DataSource } from 'typeorm';
import { letIn } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import { RequestError } from '../errors/request-error.js';
import type { RequestContext, SignedInPerson } from '../graphql/request-context.js';
import { SessionService } from './session.service.js';

const OPEN = 'open-without-session';
const OWN = 'about-the-account-itself';
const INSTALL = 'about-the-whole-install';
const LENDING = 'about-lines-of-ones-own';
const OWNERS_ALONE = 'This is about the whole install: only the owner of the records may do it.';

/** Names of the operations that need no session. */
export const openOperations: ReadonlySet<string> = new Set<string>();

/** Marks the few operations that need no session: looking at the session, setting up, signing in. */
export const WithoutSession =
  (): MethodDecorator =>
  (target, name, descriptor): void => {
    (openOperations as Set<string>).add(String(name));
    SetMetadata(OPEN, true)(target, name, descriptor);
  };

/** Marks what an account may do of itself, whatever it was granted: leave, and change its password. */
export const ForAnyAccount = (): MethodDecorator => SetMetadata(OWN, true);

/** Marks what is about the whole install and no part of it that could be granted. */
export const ForOwner = (): MethodDecorator & ClassDecorator => SetMetadata(INSTALL, true);

const requestOf = (context: ExecutionContext): Request & { person?: SignedInPerson | null } =>
  context.getType<'http' | 'graphql'>() === 'graphql'
    ? GqlExecutionContext.create(context).getContext<RequestContext>().req
    : context.switchToHttp().getRequest();

/** Marks what whoever's a line is decides about it: the owner of theirs, a keeper of their own. The household and partners do not. */
export const ForWhoseLine = (): MethodDecorator => SetMetadata(LENDING, true);

/** A device that kept entries names whose they are: nobody else's session may send them. */
const expectPerson = (request: Request, person: SignedInPerson): void => {
  // Pages that a device has kept since before the name was changed send the old one.
  const meant = request.headers['linewright-person'] ?? request.headers['linewright-keeper'];
  if (meant === undefined || meant === person.id) return;
  throw new RequestError(
    'OTHER_PERSON',
    'These entries are of another person: sign in under that name to send them.',
  );
};

const isReading = (context: ExecutionContext): boolean =>
  context.getType<'http' | 'graphql'>() === 'graphql'
    ? GqlExecutionContext.create(context).getInfo<GraphQLResolveInfo>().operation.operation ===
      OperationTypeNode.QUERY
    : requestOf(context).method === 'GET';

const expectNoChange = (context: ExecutionContext, { name }: SignedInPerson): void => {
  if (isReading(context)) return;
  throw new RequestError(
    'NOT_ALLOWED',
    `You are looking at what ${name} sees, and nothing is changed meanwhile: stop looking first.`,
  );
};

/** Everything needs a session unless it says otherwise, and more than that of whoever is not the owner. */
@Injectable()
export class SessionGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly sessions: SessionService,
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    if (this.isMarked(OPEN, context)) return true;
    const request = requestOf(context);
    const person = await this.sessions.personOf(request);
    if (person !== null) {
      expectPerson(request, person);
      letIn({ kind: 'account', ...person });
      if (person.role === 'owner') this.clock.ownerAsks();
      if (person.looking === true) expectNoChange(context, person);
      if (person.program !== undefined) this.expectRecords(context, person.program);
      if (this.isMarked(OWN, context) || person.role === 'owner') return true;
      if (person.role === 'keeper' && this.isMarked(LENDING, context)) return true;
      if (this.isMarked(INSTALL, context) || this.isMarked(LENDING, context))
        throw new RequestError('NOT_ALLOWED', OWNERS_ALONE);
      if (person.role === 'partner') await this.expectGrant();
      return true;
    }
    throw new RequestError(
      'SIGN_IN_NEEDED',
      'Sign in first: these records open only after sign-in.',
    );
  }

  private isMarked(mark: string, context: ExecutionContext): boolean {
    const places = [context.getHandler(), context.getClass()];
    return this.reflector.getAllAndOverride<boolean | undefined>(mark, places) === true;
  }

  /** A token opens records: neither the account that it is of, nor the install; and nothing is changed by one that only reads. */
  private expectRecords(context: ExecutionContext, { mayRecord }: { mayRecord: boolean }): void {
    if ([OWN, INSTALL, LENDING].some((mark) => this.isMarked(mark, context)))
      throw new RequestError(
        'NOT_ALLOWED',
        'A token opens records, not accounts or the install itself: sign in for that.',
      );
    if (mayRecord || isReading(context)) return;
    throw new RequestError(
      'NOT_ALLOWED',
      'This token only reads: make one that may record, on the page "People".',
    );
  }

  /** Who was granted nothing and offered no fish is told so at once; for the others each table's policies say what they may see. */
  private async expectGrant(): Promise<void> {
    const [found] = (await this.dataSource.query(
      'SELECT cardinality(door_lines()) > 0 OR door_handed() AS any',
    )) as { any: boolean }[];
    if (found?.any === true) return;
    throw new RequestError(
      'NOT_ALLOWED',
      'Nothing here was shared with your account: ask the owner of the records to share a line with you.',
    );
  }
}

const signedInOf = (context: ExecutionContext): SignedInPerson => {
  const person = requestOf(context).person;
  if (person !== undefined && person !== null) return person;
  throw new RequestError('SIGN_IN_NEEDED', 'Sign in first: these records open only after sign-in.');
};

/** The account that is signed in, for handlers about accounts behind {@link SessionGuard}. */
export const CurrentAccount = createParamDecorator((_: unknown, context: ExecutionContext) =>
  signedInOf(context),
);

/**
 * The person whose records are kept by whoever is signed in, under the name of the latter, for handlers about records behind
 * {@link SessionGuard}: what somebody of the household records is the owner's record.
 */
export const CurrentPerson = createParamDecorator(
  (_: unknown, context: ExecutionContext): SignedInPerson => {
    const account = signedInOf(context);
    return { ...account, id: account.keepsFor };
  },
);
