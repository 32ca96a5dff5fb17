import {
  type AmmoniaNitrogen,
  type AmmoniaUnit,
  CareError,
  type ChangeAdvice,
  type ChangePlan,
  type EpaCriteria,
  type UnionisedAmmonia,
  ammoniaNitrogen,
  changeAdvice,
  epaCriteria,
  limitAsNitrogen,
  planChange,
  steadyPeak,
  unionisedAmmonia,
} from '@linewright/care';
import { decimalIn } from '@linewright/pedigree';

/** What is typed into the calculator, as text. */
export interface CalculatorText {
  readonly total: string;
  readonly unit: string;
  readonly pH: string;
  readonly celsius: string;
  readonly sourceTotal: string;
  readonly sourcePH: string;
  readonly sourceCelsius: string;
  readonly rise: string;
}

export interface CalculatorAnswer {
  readonly found: UnionisedAmmonia;
  readonly limit: AmmoniaNitrogen;
  readonly plan: ChangePlan;
  readonly advice: ChangeAdvice;
  /** Total ammonia before and after each change once settled, mg/L as N; `null` without a rise or a change. */
  readonly settled: { readonly before: number; readonly after: number } | null;
  readonly criteria: EpaCriteria;
}

const fieldWord: Readonly<Record<Exclude<keyof CalculatorText, 'unit'>, string>> = {
  total: 'total ammonia now',
  pH: 'pH now',
  celsius: 'temperature now',
  sourceTotal: 'ammonia of the new water',
  sourcePH: 'pH of the new water',
  sourceCelsius: 'temperature of the new water',
  rise: 'rise between changes',
};

/** What was typed and is no number: taken for blank it would be taken for clean water. */
const misread = (typed: CalculatorText): string | null => {
  const field = (Object.keys(fieldWord) as (keyof typeof fieldWord)[]).find(
    (name) => typed[name].trim() !== '' && decimalIn(typed[name]) === null,
  );
  return field === undefined
    ? null
    : `“${typed[field]}” (${fieldWord[field]}) is not a number: give one such as 7.5, or leave it blank.`;
};

type Limit = { readonly value: number; readonly unit: AmmoniaUnit };

/** The answer, or what is missing or wrong in words. Blank new water is taken as clean and like the tank's. */
export function planWater(typed: CalculatorText, limit: Limit): CalculatorAnswer | string {
  const wrong = misread(typed);
  if (wrong !== null) return wrong;
  const total = decimalIn(typed.total);
  const pH = decimalIn(typed.pH);
  const celsius = decimalIn(typed.celsius);
  if (total === null || pH === null || celsius === null) {
    return 'Give total ammonia, pH and temperature.';
  }
  if (typed.unit === '') return 'Choose what the kit prints beside its scale.';
  try {
    return answerFor({ total, pH, celsius }, typed, limit);
  } catch (error) {
    if (error instanceof CareError) return error.message;
    throw error;
  }
}

interface Tank {
  /** In the unit that was typed. */
  readonly total: number;
  readonly pH: number;
  readonly celsius: number;
}

function answerFor(typedTank: Tank, typed: CalculatorText, limit: Limit): CalculatorAnswer {
  const unit = typed.unit as AmmoniaUnit;
  const tank = { ...typedTank, total: ammoniaNitrogen(typedTank.total, unit) };
  const source = {
    total: ammoniaNitrogen(decimalIn(typed.sourceTotal) ?? 0, unit),
    pH: decimalIn(typed.sourcePH),
    celsius: decimalIn(typed.sourceCelsius),
  };
  const asNitrogen = limitAsNitrogen(limit);
  const plan = planChange(tank, source, asNitrogen);
  const rise = decimalIn(typed.rise);
  return {
    found: unionisedAmmonia(tank.total, tank),
    limit: asNitrogen,
    plan,
    advice: changeAdvice(plan),
    settled:
      rise === null || plan.steps === null
        ? null
        : steadyPeak(
            ammoniaNitrogen(rise, unit),
            1 - (1 - plan.steps.each) ** plan.steps.times,
            source.total,
          ),
    criteria: epaCriteria(tank),
  };
}
