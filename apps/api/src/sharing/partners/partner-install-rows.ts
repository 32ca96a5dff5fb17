import type { EntityManager } from 'typeorm';
import { personHere } from '../../stock/people-rows.js';
import { LineExchangeRow } from '../../stock/rows/line-exchange.entity.js';
import { PartnerInstallRow } from '../../stock/rows/partner-install.entity.js';

/** Installs that were paired with this one, the latest first. */
export const partnerInstalls = (manager: EntityManager): Promise<PartnerInstallRow[]> =>
  manager.find(PartnerInstallRow, { order: { pairedAt: 'DESC', installId: 'ASC' } });

export const partnerInstall = (
  manager: EntityManager,
  installId: string,
): Promise<PartnerInstallRow | null> => manager.findOneBy(PartnerInstallRow, { installId });

/** People whose install's key is known here: whoever is here, and all who were ever paired. */
export const keysKnown = async (manager: EntityManager): Promise<Set<string>> => {
  const here = await personHere(manager);
  const paired = (await partnerInstalls(manager)).map(({ personId }) => personId);
  return new Set([...(here === null ? [] : [here]), ...paired]);
};

export const putPartnerInstall = async (
  manager: EntityManager,
  row: Partial<PartnerInstallRow> & Pick<PartnerInstallRow, 'installId'>,
): Promise<void> => {
  await manager.upsert(PartnerInstallRow, row, ['installId']);
};

export const changePartnerInstall = async (
  manager: EntityManager,
  installId: string,
  changes: Partial<PartnerInstallRow>,
): Promise<void> => {
  await manager.update(PartnerInstallRow, { installId }, changes);
};

/** What went between this install and those, by line. */
export const lineExchanges = (
  manager: EntityManager,
  installId: string,
): Promise<LineExchangeRow[]> =>
  manager.find(LineExchangeRow, { where: { installId }, order: { lineId: 'ASC' } });

/** A line that is neither granted nor offered any more. */
export const forgetLineExchange = async (
  manager: EntityManager,
  installId: string,
  lineId: string,
): Promise<void> => {
  await manager.delete(LineExchangeRow, { installId, lineId });
};

export const putLineExchange = async (
  manager: EntityManager,
  row: Partial<LineExchangeRow> & Pick<LineExchangeRow, 'installId' | 'lineId'>,
): Promise<void> => {
  await manager.upsert(LineExchangeRow, row, ['installId', 'lineId']);
};
