import { HOUR, guideReached, nitrateAsIon, tapWaterCaution } from '@linewright/care';
import type { WaterAlertModel, WaterPlaceModel, WaterRuleModel } from './water.model.js';

type Told = Omit<WaterAlertModel, 'place'>;

/** Water unread for so long is taken as out of use. */
const IN_USE_HOURS = 14 * 24;

const rounded = (value: number, digits: number): number => Number(value.toPrecision(digits));
/** To two digits, or as many as part it from its limit: "0.02, your limit is 0.02" explains nothing. */
export const besideLimit = (value: number, limit: number): string => {
  let digits = 2;
  while (digits < 6 && value !== limit && rounded(value, digits) === rounded(limit, digits))
    digits++;
  return `${rounded(value, digits)} mg/L`;
};

const ammonia = ({ latest }: WaterPlaceModel, rule: WaterRuleModel): Told[] => {
  const { unionised, standing, change } = latest;
  if (unionised === null || change === null) return [];
  const { cautions } = change;
  const found = `Un-ionised ammonia ${besideLimit(unionised.asNH3, rule.limitAsNH3)} as NH3; your limit is ${rule.limitAsNH3} mg/L.`;
  if (standing === 'over') {
    const message = `${found} ${change.remedy}`;
    return [{ kind: 'ammonia_over', severity: 'stop', message, cautions }];
  }
  if (standing === 'near') {
    const message = `${found} Measure it again soon.`;
    return [{ kind: 'ammonia_near', severity: 'caution', message, cautions }];
  }
  if ((change.afterUsualAsNH3 ?? 0) <= rule.limitAsNH3) return [];
  const message = `${found} A usual change with your new water could take it over.`;
  return [{ kind: 'new_water', severity: 'caution', message, cautions }];
};

/** Where ammonia was not computed, new water is asked for all the same. */
const newWaterCautions = ({ latest }: WaterPlaceModel): string[] => [
  ...new Set([...(latest.change?.cautions ?? []), tapWaterCaution]),
];

const otherNitrogen = (place: WaterPlaceModel): Told[] => {
  const { latest } = place;
  const told: Told[] = [];
  const cautions = newWaterCautions(place);
  const nitrite = guideReached('nitrite', latest.nitrite, latest.nitriteForm);
  if (nitrite !== null) {
    told.push({
      kind: 'nitrite',
      severity: 'caution',
      message: `Nitrite ${latest.nitrite} mg/L; below ${nitrite.value} is usual. A guide, not a limit. ${nitrite.remedy}`,
      cautions,
    });
  }
  const nitrate = guideReached('nitrate', latest.nitrate, latest.nitrateForm);
  if (latest.nitrate !== null && nitrate !== null) {
    told.push({
      kind: 'nitrate',
      severity: 'note',
      message: `Nitrate ${nitrateAsIon(latest.nitrate, latest.nitrateForm).toFixed(0)} mg/L as NO3; fishkeepers hold fry below 20-40. Practice, without a source. ${nitrate.remedy}`,
      cautions,
    });
  }
  return told;
};

const age = ({ latest }: WaterPlaceModel, rule: WaterRuleModel, now: Date): Told[] => {
  const hours = (now.getTime() - latest.takenAt.getTime()) / HOUR;
  if (latest.trust.state !== 'old' || hours > IN_USE_HOURS) return [];
  const days = Math.floor(hours / 24);
  const words = days >= 2 ? `${days} days` : `${Math.floor(hours)} hours`;
  return [
    {
      kind: 'reading_old',
      severity: 'note',
      message: `Last measured ${words} ago; by your rule a reading counts for ${rule.trustHours} hours. Measure again.`,
      cautions: [],
    },
  ];
};

/** A remedy may hold a caution of its own: it is not said a second time. */
const notSaidYet = ({ message, cautions }: Told): string[] =>
  cautions.filter((caution) => !message.includes(caution));

const order = ['stop', 'caution', 'note'];

/** What the newest readings ask for, gravest first. */
export const alertsOf = (
  places: readonly WaterPlaceModel[],
  rule: WaterRuleModel,
  now: Date,
): WaterAlertModel[] =>
  places
    .flatMap((place) => {
      const hours = (now.getTime() - place.latest.takenAt.getTime()) / HOUR;
      const inUse = hours <= IN_USE_HOURS;
      const told = inUse
        ? [...ammonia(place, rule), ...otherNitrogen(place), ...age(place, rule, now)]
        : [];
      return told.map((one) => ({ ...one, cautions: notSaidYet(one), place }));
    })
    .sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity));
