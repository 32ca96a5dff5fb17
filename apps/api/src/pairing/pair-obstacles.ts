import {
  completeSettings,
  type PairingSettings,
  type PairingWarning,
  planningEffect,
  readinessWarnings,
} from '@linewright/mating';
import type { EntityManager } from 'typeorm';
import { fieldError } from '../errors/request-error.js';
import { type CandidateRow, candidateRows, toCandidate } from '../stock/candidate-rows.js';
import { settingsOfLines } from './settings-of-lines.js';

/** What the lines of these fish say, by line. */
export const rulesOfLines = async (
  manager: EntityManager,
  rows: readonly CandidateRow[],
): Promise<ReadonlyMap<string, PairingSettings>> =>
  new Map(
    Object.entries(await settingsOfLines(manager, rows)).map(([id, said]) => [
      id,
      completeSettings(said),
    ]),
  );

const BUILT_IN = completeSettings();

/** Warnings that stand in the way of planning a pair for a day: those that ask for confirmation, and those that refuse it. */
export const obstaclesOf = (
  sire: CandidateRow,
  dam: CandidateRow,
  day: string,
  rules: ReadonlyMap<string, PairingSettings>,
): PairingWarning[] => {
  // Each fish by what its own line says, as in the list of pairs.
  const rulesOf = ({ lineId }: CandidateRow) => rules.get(lineId ?? '') ?? BUILT_IN;
  return [
    ...readinessWarnings(toCandidate(sire), 'sire', day, rulesOf(sire)),
    ...readinessWarnings(toCandidate(dam), 'dam', day, rulesOf(dam)),
  ].filter((warning) => planningEffect(warning) !== 'free');
};

/**
 * @throws RequestError `VALIDATION`: on the fish that cannot be paired, or on `confirmed` when a warning asks for confirmation
 * and none was given.
 */
export const expectPlannable = async (
  manager: EntityManager,
  plan: { sireId: string; damId: string; plannedOn: string; confirmed: boolean },
): Promise<void> => {
  const rows = await candidateRows(manager, [plan.sireId, plan.damId], null);
  const row = (id: string): CandidateRow => rows.find((one) => one.id === id.toLowerCase())!;
  const found = obstaclesOf(
    row(plan.sireId),
    row(plan.damId),
    plan.plannedOn,
    await rulesOfLines(manager, rows),
  );
  const refused = found.filter((warning) => planningEffect(warning) === 'refuse');
  if (refused.length > 0) {
    throw fieldError(
      ...refused.map(({ concerns, text }) => ({
        field: concerns === 'sire' ? 'sireId' : 'damId',
        message: text,
      })),
    );
  }
  if (found.length === 0 || plan.confirmed) return;
  const texts = found.map(({ text }) => text).join(' ');
  throw fieldError({
    field: 'confirmed',
    message: `${texts} If you want to plan the pair anyway, confirm it.`,
  });
};
