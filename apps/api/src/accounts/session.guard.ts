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
import { RequestError } from '../errors/request-error.js';
import type { RequestContext, SignedInKeeper } from '../graphql/request-context.js';
import { SessionService } from './session.service.js';

const OPEN = 'open-without-session';

/** Names of the operations that need no session. */
export const openOperations: ReadonlySet<string> = new Set<string>();

/** Marks the few operations that need no session: looking at the session, setting up, signing in. */
export const WithoutSession =
  (): MethodDecorator =>
  (target, name, descriptor): void => {
    (openOperations as Set<string>).add(String(name));
    SetMetadata(OPEN, true)(target, name, descriptor);
  };

const requestOf = (context: ExecutionContext): Request & { keeper?: SignedInKeeper | null } =>
  context.getType<'http' | 'graphql'>() === 'graphql'
    ? GqlExecutionContext.create(context).getContext<RequestContext>().req
    : context.switchToHttp().getRequest();

/** A device that kept entries names whose they are: nobody else's session may send them. */
const expectKeeper = (request: Request, keeper: SignedInKeeper): void => {
  const meant = request.headers['linewright-keeper'];
  if (meant === undefined || meant === keeper.id) return;
  throw new RequestError(
    'OTHER_KEEPER',
    'These entries are of another keeper: sign in as that keeper to send them.',
  );
};

/** Everything needs a session unless it says otherwise. */
@Injectable()
export class SessionGuard implements CanActivate {
  constructor(
    private readonly reflector: Reflector,
    private readonly sessions: SessionService,
  ) {}

  async canActivate(context: ExecutionContext): Promise<boolean> {
    if (
      this.reflector.getAllAndOverride<boolean>(OPEN, [context.getHandler(), context.getClass()])
    ) {
      return true;
    }
    const request = requestOf(context);
    const keeper = await this.sessions.keeperOf(request);
    if (keeper !== null) {
      expectKeeper(request, keeper);
      return true;
    }
    throw new RequestError(
      'SIGN_IN_NEEDED',
      'Sign in first: this needs the keeper of the records.',
    );
  }
}

/** The signed-in keeper, for handlers behind {@link SessionGuard}. */
export const CurrentKeeper = createParamDecorator((_: unknown, context: ExecutionContext) => {
  const keeper = requestOf(context).keeper;
  if (keeper === undefined || keeper === null) {
    throw new RequestError(
      'SIGN_IN_NEEDED',
      'Sign in first: this needs the keeper of the records.',
    );
  }
  return keeper;
});
