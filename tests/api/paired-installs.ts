import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect } from 'vitest';
import type { RunningApi } from './harness.js';

type Asked = Pick<RunningApi, 'graphql' | 'send'>;

export const PARTNER = `id words endedAt endedReason folder problem strangers lookedAt refusedAt refusedReason underWay person { id name }
  lines { lineId lineCode sentAt readAt taken leftOut photosWaiting problem line { code } }`;

export interface Partner {
  readonly id: string;
  readonly words: string;
  readonly problem: string | null;
  readonly strangers: number;
  readonly endedAt: string | null;
  readonly refusedAt: string | null;
  readonly refusedReason: string | null;
  readonly underWay: boolean;
  readonly person: { readonly id: string; readonly name: string };
  readonly lines: readonly {
    readonly lineId: string;
    readonly lineCode: string | null;
    readonly sentAt: string | null;
    readonly readAt: string | null;
    readonly taken: number;
    readonly leftOut: number;
    readonly photosWaiting: number;
    readonly problem: string | null;
    readonly line: { readonly code: string } | null;
  }[];
}

export const ownInstall = async (api: Asked): Promise<{ code: string; words: string }> =>
  (
    await api.graphql<{ ownInstall: { code: string; words: string } }>(
      '{ ownInstall { code words } }',
    )
  ).ownInstall;

export const pair = async (api: Asked, code: string, name?: string): Promise<Partner> =>
  (
    await api.graphql<{ pairInstall: Partner }>(
      `mutation ($input: PairInstallInput!) { pairInstall(input: $input) { ${PARTNER} } }`,
      { input: { code, name } },
    )
  ).pairInstall;

export const setFolder = (api: Asked, installId: string, folder: string | null) =>
  api.send<{ setExchangeFolder: Partner }>(
    `mutation ($id: ID!, $folder: String) { setExchangeFolder(installId: $id, folder: $folder) { ${PARTNER} } }`,
    { id: installId, folder },
  );

/** Looks into the folder; again where the schedule was at it just then. */
export const exchange = async (api: Asked, installId: string): Promise<Partner> => {
  for (;;) {
    const { exchangeNow } = await api.graphql<{ exchangeNow: Partner }>(
      `mutation ($id: ID!) { exchangeNow(installId: $id) { ${PARTNER} } }`,
      { id: installId },
    );
    if (!exchangeNow.underWay) return exchangeNow;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
};

/** Both look into the folder in turn, twice: what one writes the other reads, and the answer comes back. Nothing stands in the way. */
export const exchangeBothWays = async (
  one: Asked,
  partnerOfOne: string,
  other: Asked,
  partnerOfOther: string,
): Promise<void> => {
  for (const [api, id] of [
    [one, partnerOfOne],
    [other, partnerOfOther],
    [one, partnerOfOne],
    [other, partnerOfOther],
  ] as const) {
    const { problem, lines } = await exchange(api, id);
    expect([problem, ...lines.map((line) => line.problem)]).toEqual([null, null]);
  }
};

export const takeOffered = async (
  api: Asked,
  installId: string,
  lineId: string,
): Promise<Partner> =>
  (
    await api.graphql<{ takeOfferedLine: Partner }>(
      `mutation ($id: ID!, $line: ID!) { takeOfferedLine(installId: $id, lineId: $line) { ${PARTNER} } }`,
      { id: installId, line: lineId },
    )
  ).takeOfferedLine;

export const grant = (api: Asked, personId: string, lineId: string, more: object = {}) =>
  api.graphql('mutation ($input: GrantLineInput!) { grantLine(input: $input) { level } }', {
    input: {
      ...{ personId, lineId, level: 'BREED' },
      ...{ scores: true, photos: true, notes: true, water: true, place: true, ...more },
    },
  });

/** Two installs paired with each other, their words compared, and a folder that both reach. */
export const pairUp = async (
  a: Asked,
  b: Asked,
  nameOfB = 'Runa',
): Promise<{ folder: string; ofB: Partner; ofA: Partner }> => {
  const folder = mkdtempSync(join(tmpdir(), 'linewright-exchange-'));
  const [ownA, ownB] = [await ownInstall(a), await ownInstall(b)];
  const ofB = await pair(a, ownB.code, nameOfB);
  const ofA = await pair(b, ownA.code, 'Anna');
  for (const [api, of] of [
    [a, ofB],
    [b, ofA],
  ] as const) {
    await api.graphql('mutation ($id: ID!) { confirmInstallWords(installId: $id) { id } }', {
      id: of.id,
    });
    const { errors } = await setFolder(api, of.id, folder);
    if (errors !== undefined) throw new Error(JSON.stringify(errors));
  }
  return { folder, ofB, ofA };
};
