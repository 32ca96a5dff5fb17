import type { EntityManager } from 'typeorm';
import { fieldError, notFound } from '../errors/request-error.js';
import { requestWithId } from '../stock/club-rows.js';
import type { ClubRequestRow, ClubRequestWhat } from '../stock/rows/club.entity.js';
import type { HandOverKind } from '../stock/rows/hand-over.entity.js';

const answeredBy: Record<ClubRequestWhat, readonly HandOverKind[]> = {
  fish: ['gift', 'sale'],
  loan: ['loan'],
  stud: ['loan'],
};

const inWords: Record<ClubRequestWhat, string> = {
  fish: 'a fish to keep: give or sell it',
  loan: 'a loan: lend the fish',
  stud: 'a stud: lend the fish for the mating',
};

/**
 * Whether an offer can answer a request: whoever was asked hands a fish to whoever asked. For a stud either lends to the other, since the
 * one fish goes to where the other swims.
 */
const isBetween = (
  { what, fromId, toId }: ClubRequestRow,
  giver: string,
  receiver: string | null,
) =>
  (giver === toId && receiver === fromId) ||
  (what === 'stud' && giver === fromId && receiver === toId);

/**
 * The request that an offer answers, as whoever offers sees it.
 *
 * @throws RequestError `VALIDATION` for a request that was not answered yes, is of somebody else or asks for another kind; `NOT_FOUND`
 */
export const answeredRequest = async (
  manager: EntityManager,
  id: string,
  offer: { readonly fromId: string; readonly toId: string | null; readonly kind: HandOverKind },
): Promise<string> => {
  const request = await requestWithId(manager, id.toLowerCase());
  if (request === null || ![request.fromId, request.toId].includes(offer.fromId))
    throw notFound('request', id);
  if (request.state !== 'yes')
    throw fieldError({
      field: 'requestId',
      message: 'This request was not answered yes: answer it first.',
    });
  if (!isBetween(request, offer.fromId, offer.toId))
    throw fieldError({
      field: 'toId',
      message: 'This request is between others: offer the fish to whoever asked for it.',
    });
  if (!answeredBy[request.what].includes(offer.kind))
    throw fieldError({
      field: 'kind',
      message: `This request is for ${inWords[request.what]}.`,
    });
  return request.id;
};
