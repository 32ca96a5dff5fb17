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
import { newestPurposes, wholePurpose } from '../stock/purpose-rows.js';

const BUILT_IN = completeSettings();

/** What the lines of these fish say of ages and rests, by line; lines that say nothing are not in it. */
export const rulesOfLines = async (
  manager: EntityManager,
  rows: readonly CandidateRow[],
): Promise<ReadonlyMap<string, PairingSettings>> => {
  const ids = new Set(rows.flatMap(({ lineId }) => lineId ?? []));
  const said = await newestPurposes(manager, [...ids]);
  return new Map([...said].map(([id, row]) => [id, completeSettings(wholePurpose(row).rules)]));
};

/** A pair of one line goes by that line's rules; any other by the built-in ones. */
const rulesOf = (
  sire: CandidateRow,
  dam: CandidateRow,
  rules: ReadonlyMap<string, PairingSettings>,
): PairingSettings =>
  (sire.lineId === dam.lineId ? rules.get(sire.lineId ?? '') : undefined) ?? BUILT_IN;

/** Warnings that stand in the way of planning a pair for a day: those that ask for confirmation, and those that refuse it. */
export const obstaclesOf = (
  sire: CandidateRow,
  dam: CandidateRow,
  day: string,
  rules: ReadonlyMap<string, PairingSettings>,
): PairingWarning[] => {
  const settings = rulesOf(sire, dam, rules);
  return [
    ...readinessWarnings(toCandidate(sire), 'sire', day, settings),
    ...readinessWarnings(toCandidate(dam), 'dam', day, settings),
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
