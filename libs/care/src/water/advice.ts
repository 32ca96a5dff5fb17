import { type AmmoniaNitrogen, ammoniaIn } from './ammonia-units.js';
import {
  type ChangePlan,
  type ChangeSteps,
  type ChangeWarning,
  type RiseByNewWater,
  usualShare,
} from './change-plan.js';
import { neverAcidCaution, standingPHCaution, tapWaterCaution } from './cautions.js';

/** A change of water in words, the same wherever it is told. */
export interface ChangeAdvice {
  /** What to do. */
  readonly remedy: string;
  /** What to mind, gravest first; each stands by itself. */
  readonly cautions: readonly string[];
}

/** mg/L as NH3, to three digits. */
const asNH3 = (amount: AmmoniaNitrogen): string =>
  String(Number(ammoniaIn(amount, 'NH3').toPrecision(3)));

const percent = (share: number): string => `${Math.round(100 * share)} %`;

const changeWords = ({ times, each }: ChangeSteps): string =>
  `${percent(each)} of the water${times > 1 ? ` ${times} times, hours apart` : ''}`;

/**
 * The remedy and the cautions of a plan.
 *
 * @example changeAdvice(planChange(tank, source, limit)).remedy // 'Change 24 % of the water. ...'
 */
export function changeAdvice(plan: ChangePlan): ChangeAdvice {
  const { outcome, rise, warnings } = plan;
  const remedy = remedyOf(plan);
  const ofPH = warnings.includes('PH_RISES') || warnings.includes('PH_UNKNOWN');
  return {
    remedy,
    cautions: [
      ...(rise === null ? [] : [riseWords(plan, rise)]),
      ...warnings.map((warning) => warningWords[warning]),
      // Whoever reads that a lower pH is safer must not think of acid.
      ...(ofPH && !remedy.includes(neverAcidCaution) ? [neverAcidCaution] : []),
      ...(outcome === 'NOT_NEEDED' ? [] : [tapWaterCaution]),
    ],
  };
}

function remedyOf(plan: ChangePlan): string {
  const { steps, worstOnTheWay } = plan;
  if (plan.outcome === 'NOT_NEEDED') return 'Not over the limit: no change is needed for it.';
  if (steps !== null) {
    const amounts = steps.after.map(({ unionisedAtMost }) => asNH3(unionisedAtMost)).join(', ');
    const when = steps.times > 1 ? 'After each change it holds' : 'It then holds';
    return `Change ${changeWords(steps)}. ${when} at most ${amounts} mg/L as NH3.`;
  }
  const not =
    worstOnTheWay === null
      ? 'No change with this new water brings it under the limit.'
      : `Do not change with this new water: on the way to the limit it could stand at ${asNH3(worstOnTheWay)} mg/L as NH3, worse than the ${asNH3(plan.now)} of now.`;
  return `${not} ${insteadOf(plan)}`;
}

function insteadOf({ matched, tank }: ChangePlan): string {
  const change = matched === null ? '' : `: change ${changeWords(matched)}`;
  return `Instead, use clean, treated water of the same pH (${tank.pH}) and temperature (${tank.celsius} °C)${change}. Or move the fish into clean, treated water that matches theirs. With nothing better at hand, make small changes, measure pH and ammonia after each, and stop if un-ionised ammonia rises. Feed less. ${neverAcidCaution}`;
}

function riseWords(
  { now, limit, steps }: ChangePlan,
  { afterUsual, atMost }: RiseByNewWater,
): string {
  const start = 'Your new water can raise un-ionised ammonia:';
  const shortly = `at most ${asNH3(atMost)} mg/L as NH3 for a short time while it goes in`;
  if (afterUsual <= now || steps !== null) return `${start} from ${asNH3(now)} to ${shortly}.`;
  const times = afterUsual / limit;
  const against = times > 1 ? `, ${Number(times.toPrecision(2))} times the limit` : '';
  return `${start} from ${asNH3(now)} to at most ${asNH3(afterUsual)} mg/L as NH3 after a usual change of ${percent(usualShare)}${against}, and to ${shortly}.`;
}

const warningWords: Readonly<Record<ChangeWarning, string>> = {
  PH_RISES: `The new water has a higher pH: what ammonia is left turns more poisonous. Water of the tank’s own pH is safer. ${standingPHCaution}`,
  AMMONIA_RISES:
    'The new water holds more ammonia than the tank: tap water treated with chloramine can. Look for cleaner water.',
  PH_UNKNOWN: `The pH of the new water is not given and is taken as the tank’s own: a higher one makes ammonia more poisonous. ${standingPHCaution}`,
  TEMPERATURE_DIFFERS: 'More than 2 °C between the waters: bring the new one to temperature first.',
  LARGE_CHANGE: 'More than half the water in all: read the water between the changes.',
};
