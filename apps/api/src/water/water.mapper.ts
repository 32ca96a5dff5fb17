import { ammoniaIn, limitAsNitrogen } from '@linewright/care';
import { toWithdrawal } from '../shapes/history.model.js';
import { judgeWater } from './judge-water.js';
import type { AmmoniaUnit, NitrogenForm } from '../shapes/water.enums.js';
import type { WaterReadingModel, WaterRuleModel } from './water.model.js';
import type { WaterReadingRow } from '../stock/rows/water-reading.entity.js';
import type { WaterRuleRow } from '../stock/rows/water-rule.entity.js';

export const toWaterReading = (
  row: WaterReadingRow,
  rule: WaterRuleRow,
  now: Date,
): WaterReadingModel => ({
  id: row.id,
  vessel: row.vessel,
  vesselId: row.vesselId,
  takenAt: row.takenAt,
  totalAmmonia: row.totalAmmonia,
  ammoniaUnit: row.ammoniaUnit as AmmoniaUnit | null,
  pH: row.ph,
  celsius: row.celsius,
  nitrite: row.nitrite,
  nitriteForm: row.nitriteForm as NitrogenForm | null,
  nitrate: row.nitrate,
  nitrateForm: row.nitrateForm as NitrogenForm | null,
  kit: row.kit,
  note: row.note,
  revision: row.revision,
  withdrawn: toWithdrawal(row),
  spawnId: row.spawnId,
  ...judgeWater(row, rule, now),
});

export const toWaterRule = (row: WaterRuleRow, own: boolean): WaterRuleModel => {
  const limitUnit = row.limitUnit as AmmoniaUnit;
  return {
    limit: row.limitValue,
    limitUnit,
    limitAsNH3: ammoniaIn(limitAsNitrogen({ value: row.limitValue, unit: limitUnit }), 'NH3'),
    trustHours: row.trustHours,
    sourceTotalAsN: row.sourceTotal,
    sourcePH: row.sourcePh,
    sourceCelsius: row.sourceCelsius,
    own,
  };
};
