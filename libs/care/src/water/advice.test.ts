import { describe, expect, it } from 'vitest';
import { defaultTemplate } from '../timeline/default-template.js';
import { changeAdvice } from './advice.js';
import { ammoniaIn, ammoniaNitrogen } from './ammonia-units.js';
import { neverAcidCaution, standingPHCaution, tapWaterCaution } from './cautions.js';
import { type NewWater, planChange } from './change-plan.js';
import { nitrogenGuides } from './limits.js';

const limit = ammoniaNitrogen(0.02, 'NH3');
const clean: NewWater = { total: ammoniaNitrogen(0, 'N'), pH: null, celsius: null };
const tank = { total: ammoniaNitrogen(1, 'N'), pH: 7.5, celsius: 28 };

describe('a change of water in words', () => {
  it('does not offer steps that stand above the start on the way, and says what to do instead', () => {
    const plan = planChange(tank, { ...clean, pH: 8.2 }, limit);
    expect(plan).toMatchObject({ outcome: 'WORSE_ON_THE_WAY', steps: null });
    expect(ammoniaIn(plan.now, 'NH3')).toBeCloseTo(0.0263, 4);
    expect(plan.worstOnTheWay! / plan.now).toBeCloseTo(2.5, 1);
    const { remedy } = changeAdvice(plan);
    expect(remedy).toContain('Do not change with this new water');
    expect(remedy).toContain('same pH (7.5) and temperature (28 °C): change 25 % of the water');
    for (const word of ['move the fish', 'small changes', neverAcidCaution]) {
      expect(remedy).toContain(word);
    }
  });

  it('warns of new water that raises ammonia where no change is needed', () => {
    const soft = { total: ammoniaNitrogen(3, 'N'), pH: 6.5, celsius: 27 };
    const plan = planChange(soft, { ...clean, pH: 8 }, limit);
    expect(plan.outcome).toBe('NOT_NEEDED');
    expect(plan.rise!.afterUsual / limit).toBeCloseTo(8.4, 1);
    const { cautions } = changeAdvice(plan);
    expect(cautions[0]).toMatch(/usual change of 25 %, 8\.4 times the limit/);
    expect(cautions.join(' ')).toContain(standingPHCaution);
  });

  it('tells to treat tap water wherever it asks for new water, and never invites acid', () => {
    const plans = [
      planChange(tank, clean, limit),
      planChange(tank, { ...clean, pH: 8.2 }, limit),
      planChange(tank, { ...clean, total: ammoniaNitrogen(2, 'N') }, limit),
    ];
    expect(plans.map(({ outcome }) => outcome)).toEqual([
      'OFFERED',
      'WORSE_ON_THE_WAY',
      'IMPOSSIBLE',
    ]);
    for (const { remedy, cautions } of plans.map(changeAdvice)) {
      expect(cautions).toContain(tapWaterCaution);
      expect(remedy).not.toMatch(/lower pH(?!:)/);
    }
  });

  it('says never to pour in acid, once, wherever one pH is called better than another', () => {
    const pHs = [null, 6.5, 7.5, 8, 8.2];
    const advised = pHs.flatMap((pH) =>
      [0.02, 1, 3].map((total) => {
        const ammonia = ammoniaNitrogen(total, 'N');
        const advice = changeAdvice(
          planChange({ ...tank, total: ammonia }, { ...clean, pH }, limit),
        );
        return [advice.remedy, ...advice.cautions].join(' ');
      }),
    );
    const steps = defaultTemplate.steps.map(({ caution }) => caution ?? '');
    const texts = [...advised, ...steps, ...nitrogenGuides.map(({ remedy }) => remedy)];
    const ofPH = texts.filter((text) => /(same|own|higher|lower) pH\b/.test(text));
    expect(ofPH.length).toBeGreaterThan(9);
    for (const text of ofPH) expect(text.split(neverAcidCaution)).toHaveLength(2);
  });

  it('says so when the pH of the new water is only taken as that of the tank', () => {
    const unknown = changeAdvice(planChange(tank, clean, limit)).cautions.join(' ');
    expect(unknown).toContain('not given and is taken as the tank’s own');
    const known = changeAdvice(planChange(tank, { ...clean, pH: 7.5 }, limit)).cautions.join(' ');
    expect(known).not.toContain('not given');
  });

  it('cold new water helps nothing that the heater undoes', () => {
    const cold = planChange(tank, { ...clean, pH: 7.5, celsius: 15 }, limit);
    const same = planChange(tank, { ...clean, pH: 7.5, celsius: 28 }, limit);
    expect(cold.steps!.each).toBe(same.steps!.each);
    expect(cold.warnings).toContain('TEMPERATURE_DIFFERS');
  });
});
