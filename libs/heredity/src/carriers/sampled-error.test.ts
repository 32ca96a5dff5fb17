import { pedigreeFromArrays } from '@linewright/pedigree';
import { describe, expect, it } from 'vitest';
import { twoAlleleLocus } from '../own-loci/define-locus.js';
import { carrierModel } from './carrier-model.js';
import { errorOfMean } from './sampled-answer.js';
import { seededChance } from '@linewright/pedigree';

const locus = twoAlleleLocus({ id: 'd', name: 'D', symbols: ['D', 'd'], looks: ['normal', 'affected'] }); // prettier-ignore
const RUNS = 60;

describe('the standard error of a sampled answer', () => {
  it('is as large as the spread over runs of batches that lean as their neighbours do (seed 11)', () => {
    const random = seededChance(11);
    let stated = 0;
    let squares = 0;
    for (let run = 0; run < 2000; run++) {
      const means = new Float64Array(40);
      let at = 0;
      for (let i = -20; i < 40; i++) {
        at = 0.2 * at + (random() + random() + random() - 1.5);
        if (i >= 0) means[i] = at;
      }
      const mean = means.reduce((sum, one) => sum + one, 0) / 40;
      squares += mean ** 2;
      stated += errorOfMean(means) ** 2;
    }
    const ratio = Math.sqrt(stated / squares);
    expect(ratio).toBeGreaterThan(0.94);
    expect(ratio).toBeLessThan(1.12);
  });
  it('covers the spread over repeated runs of the sampler on a tangled pedigree (60 seeds)', () => {
    const parents = [[-1, -1], [-1, -1], [-1, -1], [0, 1], [0, 1], [2, 3], [2, 4], [5, 6], [5, 6], [7, 8], [7, 8], [9, 10], [9, 10]]; // prettier-ignore
    const sire = Int32Array.from(parents, ([s = -1]) => s);
    const dam = Int32Array.from(parents, ([, d = -1]) => d);
    const pedigree = pedigreeFromArrays(sire, dam);
    const fish = pedigree.ids;
    const input = {
      pedigree,
      locus,
      evidence: [
        { kind: 'phenotype', id: '1', fish: fish[11] ?? '', phenotype: 'normal' } as const,
      ],
      founders: { general: { alleles: { D: '7/10', d: '3/10' } } },
    };
    const exact = carrierModel(input, { method: 'exact' });
    let stated = 0;
    let squares = 0;
    for (let seed = 1; seed <= RUNS; seed++) {
      const model = carrierModel(input, { method: 'sampled', sweeps: 400, seed });
      for (const id of fish) {
        const truth = exact.posterior(id).genotypes;
        model.posterior(id).genotypes.forEach((one, g) => {
          squares += (one.probability - (truth[g]?.probability ?? 0)) ** 2;
          stated += (one.standardError ?? 0) ** 2;
        });
      }
    }
    const ratio = Math.sqrt(stated / squares);
    // Sixty correlated runs tell the ratio to about 7 in 100.
    expect(ratio).toBeGreaterThan(0.93);
    expect(ratio).toBeLessThan(1.2);
  });
});
