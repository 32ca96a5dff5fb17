import { clsx } from 'clsx';
import { NativeSelect, TextInput } from '@mantine/core';
import {
  type AmmoniaNitrogen,
  ammoniaIn,
  ammoniaLimits,
  standingPHCaution,
  tapWaterCaution,
} from '@linewright/care';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { WATER_RULE } from '../../api/water.js';
import { useRead } from '../../api/use-read.js';
import { Caution, Cautions } from '../../components/notice.js';
import { Section } from '../../components/section.js';
import { UnitChoice } from '../../components/unit-choice.js';
import { milligrams } from '../../wording/water-words.js';
import { type CalculatorAnswer, type CalculatorText, planWater } from './plan-water.js';
import styles from './water-calculator.module.css';
import recordWaterFormStyles from '../../panels/record-water-form.module.css';
import waterNowStyles from '../../panels/water-now.module.css';
import type { WaterRule } from '../../api/water.js';

const blank: CalculatorText = {
  total: '',
  unit: '',
  pH: '',
  celsius: '',
  sourceTotal: '',
  sourcePH: '',
  sourceCelsius: '',
  rise: '',
};

/** Un-ionised ammonia and the change of water for figures that are not kept. */
export function WaterCalculator() {
  const [typed, setTyped] = useState(blank);
  const [limitId, setLimitId] = useState('own');
  const rule = useRead(WATER_RULE, {}).data?.waterRule;
  const named = ammoniaLimits.find((limit) => limit.id === limitId);
  const own = { value: rule?.limit ?? 0.02, unit: rule?.limitUnit ?? ('NH3' as const) };
  const answer = planWater(typed, named ?? own);
  const fields = { typed, onChange: setTyped };
  return (
    <Section title="Work it out" aside="nothing is saved">
      <div className={clsx(styles['calculator'], recordWaterFormStyles['form'])}>
        <div className="lw-form">
          <WaterFields {...fields} />
          <div className="lw-field-row">
            <LimitChoice limitId={limitId} setLimitId={setLimitId} rule={rule} />
            <Field {...fields} name="rise" label="Rise between changes" unit="mg/L" />
          </div>
          {named !== undefined && (
            <p className="lw-hint">
              {named.source}. {named.remark}
            </p>
          )}
        </div>
        <div aria-live="polite">
          {typeof answer === 'string' ? (
            <p className="lw-quiet">{answer}</p>
          ) : (
            <Answer answer={answer} />
          )}
        </div>
      </div>
    </Section>
  );
}

interface FieldsProps {
  typed: CalculatorText;
  onChange: (typed: CalculatorText) => void;
}

/** The water as it is, and the water that it is changed for. */
function WaterFields(fields: FieldsProps) {
  const { typed, onChange } = fields;
  return (
    <>
      <div className="lw-field-row">
        <Field {...fields} name="total" label="Total ammonia now" unit="mg/L" />
        <Field {...fields} name="pH" label="pH now" />
        <Field {...fields} name="celsius" label="Temperature now" unit="°C" />
      </div>
      <UnitChoice
        name="calculator-unit"
        value={typed.unit}
        onChange={(unit) => onChange({ ...typed, unit })}
      />
      <div className="lw-field-row">
        <Field {...fields} name="sourceTotal" label="Ammonia of the new water" unit="mg/L" />
        <Field {...fields} name="sourcePH" label="pH of the new water" />
        <Field {...fields} name="sourceCelsius" label="Its temperature" unit="°C" />
      </div>
      <p className="lw-hint">
        Blank: clean water, with pH and temperature as in the tank. {tapWaterCaution} Tap water
        treated with chloramine holds ammonia of its own. {standingPHCaution}
      </p>
    </>
  );
}

interface FieldProps extends FieldsProps {
  name: keyof CalculatorText;
  label: string;
  unit?: string;
}

function Field({ typed, onChange, name, label, unit }: FieldProps) {
  return (
    <TextInput
      label={label}
      inputMode="decimal"
      autoComplete="off"
      value={typed[name]}
      onChange={(event) => onChange({ ...typed, [name]: event.currentTarget.value })}
      {...(unit === undefined
        ? {}
        : { rightSection: <span className="lw-unit">{unit}</span>, rightSectionWidth: 58 })}
    />
  );
}

const asNH3 = (amount: AmmoniaNitrogen): string => milligrams(ammoniaIn(amount, 'NH3'));

function LimitChoice({
  limitId,
  setLimitId,
  rule,
}: {
  limitId: string;
  setLimitId: Dispatch<SetStateAction<string>>;
  rule: WaterRule | undefined;
}) {
  return (
    <NativeSelect
      label="Bring it under"
      value={limitId}
      onChange={(event) => setLimitId(event.currentTarget.value)}
      data={[
        {
          value: 'own',
          label: `your limit, ${milligrams(rule?.limitAsNH3 ?? 0.02)} as NH3`,
        },
        // A figure at which fish die is nothing to aim at.
        ...ammoniaLimits
          .filter((one) => one.aim)
          .map((one) => ({
            value: one.id,
            label: `${one.name}, ${one.value} ${one.unit === 'N' ? 'as N' : `as ${one.unit}`}`,
          })),
      ]}
    />
  );
}

function Answer({ answer }: { answer: CalculatorAnswer }) {
  const { found, advice, settled, criteria } = answer;
  return (
    <>
      <div className={waterNowStyles['now']}>
        <span>
          <strong>{asNH3(found.amount)}</strong> mg/L un-ionised as NH3 ({milligrams(found.amount)}{' '}
          as N), {(100 * found.share).toFixed(2)} % of the total
        </span>
      </div>
      {found.beyondTables && (
        <Caution>
          Beyond 30 °C or outside pH 6 to 10 the equation was not checked by its authors.
        </Caution>
      )}
      <p>
        <strong>{advice.remedy}</strong> The limit is {asNH3(answer.limit)} mg/L as NH3.
      </p>
      <Cautions of={advice.cautions} />
      {settled !== null && (
        <p>
          With that rise between such changes total ammonia settles at {milligrams(settled.before)}{' '}
          mg/L as N before each and {milligrams(settled.after)} after it, if nothing else removes
          it.
        </p>
      )}
      <CriteriaForReference {...criteria} />
    </>
  );
}

function CriteriaForReference({ acute, chronic }: CalculatorAnswer['criteria']) {
  return (
    <p className="lw-quiet">
      For reference, not a limit for fry: US EPA criteria of 2013 at this pH and temperature are{' '}
      {milligrams(acute)} mg/L of total ammonia as N for an hour and {milligrams(chronic)} over 30
      days. The first includes salmon and trout; mussels decide the second.
    </p>
  );
}
