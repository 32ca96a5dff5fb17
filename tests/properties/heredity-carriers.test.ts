import {
  carrierModel,
  defineLocus,
  HeredityError,
  type CarrierEvidence,
} from '@linewright/heredity';
import { pedigreeFromArrays } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bruteForce } from './heredity-brute-force.js';
import { build, drawn, locus } from './looped-records.js';

describe('carrier probabilities on small looped pedigrees', () => {
  it('equal those of going through every assignment; likelihood and joint too (seed 20260101)', () => {
    let possible = 0;
    fc.assert(
      fc.property(drawn(8), fc.nat(), fc.nat(), (input, first, second) => {
        const { brute, evidence } = build(input);
        const truth = bruteForce(brute);
        const founders = { general: { alleles: { D: 1 - input.q, d: input.q } } };
        const ask = () => carrierModel({ pedigree: brute.pedigree, locus, evidence, founders });
        if (truth.likelihood === 0) {
          expect(ask).toThrowError(HeredityError);
          return;
        }
        possible++;
        const model = ask();
        const all = model.all();
        truth.posterior.flat().forEach((p, i) => expect(all[i]).toBeCloseTo(p, 10));
        brute.pedigree.ids.forEach((id, i) => {
          model
            .posterior(id)
            .genotypes.forEach((one, g) =>
              expect(one.probability).toBeCloseTo(truth.posterior[i]![g]!, 10),
            );
        });
        expect(model.logLikelihood).toBeCloseTo(Math.log(truth.likelihood), 8);
        const a = first % brute.pedigree.size;
        const b = second % brute.pedigree.size;
        const joint = new Array<number>(9).fill(0);
        for (const one of model.joint(brute.pedigree.ids[a]!, brute.pedigree.ids[b]!)) {
          const copies = (g: readonly string[]) => g.filter((x) => x === 'd').length;
          joint[copies(one.sire) * 3 + copies(one.dam)]! += one.probability;
        }
        truth.joint(a, b).forEach((p, i) => expect(joint[i]).toBeCloseTo(p, 10));
      }),
      { seed: 20260101, numRuns: 300 },
    );
    expect(possible).toBeGreaterThan(100);
  });

  it('sole carriers equal those of going through every assignment (seed 20260104)', () => {
    let likely = 0;
    fc.assert(
      fc.property(drawn(8), fc.integer({ min: 1, max: 255 }), (input, mask) => {
        const { brute, evidence } = build(input);
        const truth = bruteForce(brute);
        if (truth.likelihood === 0) return;
        const founders = { general: { alleles: { D: 1 - input.q, d: input.q } } };
        const model = carrierModel({ pedigree: brute.pedigree, locus, evidence, founders });
        const among = brute.pedigree.ids.flatMap((_, i) => ((mask >> i) & 1 ? [i] : []));
        const names = among.map((i) => brute.pedigree.ids[i]!);
        const sole = model.soleCarriers(names, 'd')!;
        truth.sole(among).forEach((p, k) => {
          expect(sole[k]).toBeCloseTo(p, 8);
          if (p > 0.2 && among.length > 1) likely++;
        });
      }),
      { seed: 20260104, numRuns: 300 },
    );
    expect(likely).toBeGreaterThan(10);
  });

  it('records that hold one family at a time, and not together, are refused', () => {
    // Both parents have two alike. A mixed young makes them differ; one with two alike makes them the same.
    const either = defineLocus({
      id: 'd',
      name: 'D',
      alleles: ['D', 'd'].map((id) => ({ id, symbol: id, name: id })),
      phenotypes: ['alike', 'mixed'].map((id) => ({ id, name: id })),
      expression: [
        { genotype: 'D/d', shows: [{ phenotype: 'mixed', probability: '1' }] },
        { genotype: '-/-', shows: [{ phenotype: 'alike', probability: '1' }] },
      ],
    });
    const pedigree = pedigreeFromArrays(Int32Array.of(-1, -1, 0, 0), Int32Array.of(-1, -1, 1, 1));
    const look = (fish: number, phenotype: string): CarrierEvidence =>
      ({ kind: 'phenotype', id: `p${fish}`, fish: pedigree.ids[fish]!, phenotype }) as const;
    const ask = (...young: string[]) =>
      carrierModel({
        pedigree,
        locus: either,
        evidence: ['alike', 'alike', ...young].map((phenotype, fish) => look(fish, phenotype)),
        founders: { general: { alleles: { D: 0.5, d: 0.5 } } },
      });
    expect(ask('mixed', 'mixed').carries(pedigree.ids[0]!, 'd')).toBeCloseTo(0.5, 12);
    expect(() => ask('mixed', 'alike')).toThrowError(
      expect.objectContaining({ code: 'EVIDENCE_IMPOSSIBLE' }) as Error,
    );
  });

  it('adding a record to a model is the same as building it with the record (seed 20260102)', () => {
    let compared = 0;
    fc.assert(
      fc.property(drawn(8), (input) => {
        const { brute, evidence } = build(input);
        const last = evidence.at(-1);
        if (last?.kind !== 'brood' || bruteForce(brute).likelihood === 0) return;
        const founders = { general: { alleles: { D: 1 - input.q, d: input.q } } };
        const base = { pedigree: brute.pedigree, locus, founders };
        const before = carrierModel({ ...base, evidence: evidence.slice(0, -1) });
        const added = before.withRecord(last);
        compared++;
        const anew = carrierModel({ ...base, evidence });
        Array.from(anew.all()).forEach((p, i) => expect(added.all()[i]).toBeCloseTo(p, 10));
        expect(added.logLikelihood).toBeCloseTo(anew.logLikelihood!, 8);
      }),
      { seed: 20260102, numRuns: 200 },
    );
    expect(compared).toBeGreaterThan(50);
  });

  it('sampled ones lie within five standard errors of the exact (seed 20260103)', () => {
    let compared = 0;
    let far = 0;
    let used = 0;
    fc.assert(
      fc.property(drawn(8), (input) => {
        const { brute, evidence } = build(input);
        const truth = bruteForce(brute);
        if (truth.likelihood < 1e-12) return;
        used++;
        const model = carrierModel(
          {
            pedigree: brute.pedigree,
            locus,
            evidence,
            founders: { general: { alleles: { D: 1 - input.q, d: input.q } } },
          },
          { method: 'sampled', sweeps: 2000, seed: 7 },
        );
        expect(model.method.kind).toBe('sampled');
        brute.pedigree.ids.forEach((id, i) => {
          model.posterior(id).genotypes.forEach((one, g) => {
            compared++;
            if (Math.abs(one.probability - truth.posterior[i]![g]!) > 5 * one.standardError!) far++;
          });
        });
      }),
      { seed: 20260103, numRuns: 40 },
    );
    expect(used).toBeGreaterThan(20);
    expect(compared).toBeGreaterThan(500);
    // Batch means of twenty batches have heavy tails: a handful in a thousand may fall outside.
    expect(far).toBeLessThanOrEqual(compared / 200);
  });
});
