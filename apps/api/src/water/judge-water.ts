import {
  CareError,
  HOUR,
  ammoniaIn,
  ammoniaNitrogen,
  limitAsNitrogen,
  changeAdvice,
  planChange,
  trustOf,
  type SourceWater,
  type UnionisedAmmonia,
  unionisedAmmonia,
} from '@linewright/care';
import type { AmmoniaUnit, TrustState, WaterStanding } from '../shapes/water.enums.js';
import type { ChangeOfWaterModel, UnionisedAmmoniaModel, WaterTrustModel } from './water.model.js';
import type { WaterReadingRow } from '../stock/rows/water-reading.entity.js';
import type { WaterRuleRow } from '../stock/rows/water-rule.entity.js';

export interface WaterJudgement {
  readonly unionised: UnionisedAmmoniaModel | null;
  readonly notComputed: string | null;
  readonly standing: WaterStanding;
  readonly trust: WaterTrustModel;
  readonly change: ChangeOfWaterModel | null;
}

/** A row's figures as the library judges them, by the person's rule and at a given moment. */
export const judgeWater = (row: WaterReadingRow, rule: WaterRuleRow, now: Date): WaterJudgement => {
  const trust = trustOf((now.getTime() - row.takenAt.getTime()) / HOUR, rule.trustHours);
  const told = { trust: { state: trust.state as TrustState, hoursLeft: trust.hoursLeft } };
  const missing = missingFigures(row);
  if (missing !== null) {
    return { ...told, unionised: null, notComputed: missing, standing: 'unknown', change: null };
  }
  try {
    return { ...told, ...computed(row, rule) };
  } catch (error) {
    if (!(error instanceof CareError)) throw error;
    return {
      ...told,
      unionised: null,
      notComputed: error.message,
      standing: 'unknown',
      change: null,
    };
  }
};

const missingFigures = (row: WaterReadingRow): string | null => {
  const missing = [
    row.totalAmmonia === null || row.ammoniaUnit === null ? 'total ammonia' : '',
    row.ph === null ? 'pH' : '',
    row.celsius === null ? 'temperature' : '',
  ].filter((word) => word !== '');
  return missing.length === 0
    ? null
    : `Un-ionised ammonia needs ${missing.join(' and ')} too, taken at the same time.`;
};

const computed = (row: WaterReadingRow, rule: WaterRuleRow): Omit<WaterJudgement, 'trust'> => {
  const state = { pH: row.ph ?? 0, celsius: row.celsius ?? 0 };
  const total = ammoniaNitrogen(row.totalAmmonia ?? 0, row.ammoniaUnit as AmmoniaUnit);
  const limit = limitAsNitrogen({ value: rule.limitValue, unit: rule.limitUnit as AmmoniaUnit });
  const found = unionisedAmmonia(total, state);
  const standing = found.amount > limit ? 'over' : found.amount > limit / 2 ? 'near' : 'under';
  return {
    unionised: toUnionised(found),
    notComputed: null,
    standing,
    change: changeFor({ ...state, total }, rule, limit),
  };
};

const toUnionised = (found: UnionisedAmmonia): UnionisedAmmoniaModel => ({
  asN: found.amount,
  asNH3: ammoniaIn(found.amount, 'NH3'),
  totalAsN: found.total,
  share: found.share,
  pKa: found.pKa,
  beyondTables: found.beyondTables,
});

const changeFor = (
  tank: SourceWater,
  rule: WaterRuleRow,
  limit: ReturnType<typeof limitAsNitrogen>,
): ChangeOfWaterModel => {
  const plan = planChange(
    tank,
    {
      total: ammoniaNitrogen(rule.sourceTotal, 'N'),
      pH: rule.sourcePh,
      celsius: rule.sourceCelsius,
    },
    limit,
  );
  const { remedy, cautions } = changeAdvice(plan);
  const { steps, rise } = plan;
  return {
    outcome: plan.outcome,
    steps: steps?.times ?? null,
    shareOfEachStep: steps?.each ?? null,
    afterEachAsNH3: (steps?.after ?? []).map((water) => ammoniaIn(water.unionisedAtMost, 'NH3')),
    worstOnTheWayAsNH3: plan.worstOnTheWay === null ? null : ammoniaIn(plan.worstOnTheWay, 'NH3'),
    afterUsualAsNH3: rise === null ? null : ammoniaIn(rise.afterUsual, 'NH3'),
    raisedToAtMostAsNH3: rise === null ? null : ammoniaIn(rise.atMost, 'NH3'),
    warnings: [...plan.warnings],
    remedy,
    cautions: [...cautions],
  };
};
