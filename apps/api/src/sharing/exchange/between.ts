import { createHash } from 'node:crypto';
import type { EntityManager } from 'typeorm';
import type { LineExchangeRow } from '../../stock/rows/line-exchange.entity.js';
import type { PartnerInstallRow } from '../../stock/rows/partner-install.entity.js';
import type { InstallKeys } from '../install-keys.js';
import { putLineExchange } from '../partners/partner-install-rows.js';
import type { FolderFiles } from './folder-files.js';
import type { Borrower } from './lent-lines.service.js';

/** A partner's install with the folder that was set for it. */
export type WithFolder = PartnerInstallRow & { readonly folder: string };

/** Two installs and the folder between them, while it is looked into. */
export interface Between {
  readonly row: WithFolder;
  readonly borrower: Borrower;
  readonly keys: InstallKeys;
  readonly ours: FolderFiles;
  readonly theirs: FolderFiles;
  readonly known: ReadonlyMap<string, LineExchangeRow>;
}

export const printOf = (bytes: Uint8Array | string): string =>
  createHash('sha256').update(bytes).digest('hex');

/** Notes what went between two installs of a line. */
export const noteLine = (
  manager: EntityManager,
  { row }: Between,
  lineId: string,
  said: Partial<LineExchangeRow>,
): Promise<void> => putLineExchange(manager, { installId: row.installId, lineId, ...said });
