import type { EntityManager } from 'typeorm';
import { RequestError } from '../errors/request-error.js';
import { partnerInstall } from './partners/partner-install-rows.js';
import { wordsOf } from './install-keys.js';
import type { Manifest } from './line-file/manifest.js';
import { countToCome } from './share-stamps.js';

/** How well the maker of a file is known here. */
export const MakerStanding = {
  /** This install made it. */
  OWN: 'own',
  /** A partner's install that was paired with this one. */
  PAIRED: 'paired',
  /** Signed by an install that this one was not paired with. */
  UNKNOWN: 'unknown',
  /** An older file: signed by nobody. */
  UNSIGNED: 'unsigned',
} as const;
export type MakerStanding = (typeof MakerStanding)[keyof typeof MakerStanding];

/** Who made a file. */
export interface FileMaker {
  readonly standing: MakerStanding;
  /** Of the key that signed it; none of an unsigned file. */
  readonly words: readonly string[];
}

/**
 * @throws RequestError `SHARE_INVALID` where the maker's key was taken back here, or the file was made for another install
 */
export const makerOf = async (
  manager: EntityManager,
  maker: Manifest['maker'] | null,
  madeFor: string | null,
): Promise<FileMaker> => {
  if (maker === null) return { standing: 'unsigned', words: [] };
  const words = wordsOf(maker);
  const { install } = await countToCome(manager);
  if (maker.install === install) return { standing: 'own', words };
  if (madeFor !== null && madeFor !== install)
    throw new RequestError(
      'SHARE_INVALID',
      'This line file was made for another install than this one. Nothing was changed: ask for one that is meant for you.',
    );
  const partner = await partnerInstall(manager, maker.install);
  if (partner === null) return { standing: 'unknown', words };
  if (partner.endedAt === null) return { standing: 'paired', words };
  throw new RequestError(
    'SHARE_INVALID',
    `This line file is signed with a key that was taken back here${partner.endedReason === null ? '' : ` (${partner.endedReason})`}. Nothing was changed: pair the two installs again if you trust it.`,
  );
};
