import {
  type ArgumentsHost,
  Catch,
  type ExceptionFilter,
  HttpException,
  Logger,
} from '@nestjs/common';
import type { Response } from 'express';
import { randomUUID } from 'node:crypto';
import { toldError } from './told-error.js';

const statusOf: Record<string, number> = {
  SIGN_IN_NEEDED: 401,
  NOT_ALLOWED: 403,
  NOT_FOUND: 404,
  LOOPBACK_ONLY: 403,
  ORIGIN_REFUSED: 403,
  PHOTO_TOO_LARGE: 413,
  PHOTO_INVALID: 415,
  DATABASE_AWAY: 503,
};

/** Errors of the few plain HTTP routes (exports, health), in the same words as GraphQL's; GraphQL's own pass through. */
@Catch()
export class RequestErrorFilter implements ExceptionFilter {
  private readonly log = new Logger('errors');

  catch(error: unknown, host: ArgumentsHost): void {
    if (host.getType<'http' | 'graphql'>() === 'graphql') throw error;
    const response = host.switchToHttp().getResponse<Response>();
    const told = toldError(error);
    if (told !== null) {
      response
        .status(statusOf[told.code] ?? 400)
        .json({ code: told.code, message: told.message, ...told.details });
    } else if (error instanceof HttpException) {
      response.status(error.getStatus()).json(error.getResponse());
    } else {
      const id = randomUUID();
      this.log.error(
        `${id} ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`,
      );
      response.status(500).json({
        code: 'INTERNAL',
        message: `Something went wrong here. Details are in the server's log under ${id}.`,
      });
    }
  }
}
