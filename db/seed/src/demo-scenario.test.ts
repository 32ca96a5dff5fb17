import { describe, expect, it } from 'vitest';
import { findLocus } from '@linewright/heredity';
import { inbreedingCoefficients } from '@linewright/kinship';
import { buildPedigree } from '@linewright/pedigree';
import { dayOf } from './calendar.js';
import { demoScenario } from './index.js';
import { PHENOTYPES, SYMBOLS, type DemoLocus } from './simulated-fish.js';
import type { DemoFish, DemoScenario } from './scenario.js';

const today = '2026-03-14';
const seeds = [1, 7, 20260314];
const scenarios = new Map(seeds.map((seed) => [seed, demoScenario({ seed, today })]));

function spawnOf(scenario: DemoScenario, fish: DemoFish) {
  return scenario.spawns.find((spawn) => spawn.id === fish.spawnId);
}

function pedigreeOf(scenario: DemoScenario) {
  const parents = new Map(scenario.spawns.map((spawn) => [spawn.id, spawn]));
  return buildPedigree(
    scenario.fish.map((fish) => {
      const spawn = parents.get(fish.spawnId ?? '');
      const sex = fish.sex === 'male' || fish.sex === 'female' ? fish.sex : 'unknown';
      return {
        id: fish.id,
        sire: spawn?.sireId ?? null,
        dam: spawn?.damId ?? null,
        sex,
        bornOn: fish.hatchDate,
      };
    }),
  );
}

/** Doses of a locus's second allele in a genotype text. */
function dosesIn(locus: DemoLocus, text: string): number {
  return text.split('/').filter((allele) => allele === SYMBOLS[locus][1]).length;
}

// Generating takes well under a second; the limit allows for a machine busy with other things.
describe.each(seeds)('the demo scenario of seed %i', { timeout: 60_000 }, (seed) => {
  const scenario = scenarios.get(seed) ?? demoScenario({ seed, today });
  const byId = new Map(scenario.fish.map((fish) => [fish.id, fish]));
  const genotypes = new Map(
    scenario.genotypes.map((g) => [`${g.fishId}|${g.locusId}`, g.genotype]),
  );

  it('comes out the same again, and differently from another seed', () => {
    expect(JSON.stringify(demoScenario({ seed, today }))).toBe(JSON.stringify(scenario));
    expect(demoScenario({ seed: seed + 1, today }).fish[0]?.id).not.toBe(scenario.fish[0]?.id);
  });

  it('holds the stock a person could have', () => {
    expect(scenario.fish.length).toBeGreaterThan(550);
    expect(scenario.fish.length).toBeLessThan(800);
    expect(scenario.people.filter((person) => person.here)).toHaveLength(1);
    expect(scenario.lines).toHaveLength(3);
    const here = scenario.people.find((person) => person.here)?.id;
    for (const line of scenario.lines) {
      const inUse = scenario.fish.filter(
        (fish) =>
          fish.lineId === line.id && fish.personId === here && fish.disposition === 'keeper',
      );
      const males = inUse.filter((fish) => fish.sex === 'male').length;
      expect(males, line.code).toBeGreaterThanOrEqual(9);
      expect(males, line.code).toBeLessThanOrEqual(12);
      expect(inUse.length - males, line.code).toBeGreaterThanOrEqual(10);
      expect(inUse.length - males, line.code).toBeLessThanOrEqual(14);
    }
    const partner = scenario.fish.filter((fish) => fish.personId !== here);
    expect(partner.some((fish) => fish.disposition === 'keeper')).toBe(true);
    expect(scenario.fish.some((fish) => fish.disposition === 'hold')).toBe(true);
    expect(scenario.pairings.filter((pairing) => pairing.state === 'planned')).toHaveLength(1);
  });

  it('says what each line is for, in terms of its own traits, and refines one of them', () => {
    const of = scenario.lines.map(({ id }) =>
      scenario.linePurposes.filter(({ lineId }) => lineId === id),
    );
    expect(of.map((versions) => versions.at(-1)?.version)).toEqual([2, 1, 1]);
    const traits = new Set(scenario.traitDefinitions.map(({ id }) => id));
    for (const { content, at } of of.flat()) {
      for (const { traitId } of content.traits) expect(traits.has(traitId)).toBe(true);
      expect(content.looks.length).toBeGreaterThan(0);
      expect(at.slice(0, 10) < '2026-03-14').toBe(true);
    }
  });

  it('gives every record an id and every person tags of its own', () => {
    // A version of what a line is for is known by its line and number.
    const { linePurposes, ...records } = scenario;
    const versions = linePurposes.map(({ lineId, version }) => `${lineId} ${version}`);
    expect(new Set(versions).size).toBe(versions.length);
    const ids = Object.values(records).flatMap((some: readonly { id: string }[]) =>
      some.map(({ id }) => id),
    );
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids)
      expect(id).toMatch(/^[\da-f]{8}-[\da-f]{4}-8[\da-f]{3}-[89ab][\da-f]{3}-[\da-f]{12}$/);
    const tags = [...scenario.fish, ...scenario.spawns].map((one) => `${one.personId} ${one.tag}`);
    expect(new Set(tags).size).toBe(tags.length);
  });

  it('spans eight generations or more in each line', () => {
    const generation = new Map<string, number>();
    for (const fish of scenario.fish) {
      const spawn = spawnOf(scenario, fish);
      const of = (id: string | undefined) => generation.get(id ?? '') ?? 0;
      generation.set(fish.id, spawn ? 1 + Math.max(of(spawn.sireId), of(spawn.damId)) : 0);
    }
    for (const line of scenario.lines) {
      const deepest = Math.max(
        ...scenario.fish
          .filter((fish) => fish.lineId === line.id)
          .map((fish) => generation.get(fish.id) ?? 0),
      );
      expect(deepest, line.code).toBeGreaterThanOrEqual(8);
    }
  });

  it('has parents of the right sex and of breeding age, rested, and still there', () => {
    const lastSpawn = new Map<string, number>();
    for (const spawn of scenario.spawns) {
      const spawnedOn = spawn.spawnedOn ?? today;
      const day = dayOf(spawnedOn);
      for (const [id, sex, rest] of [
        [spawn.sireId, 'male', 14],
        [spawn.damId, 'female', 21],
      ] as const) {
        const parent = byId.get(id);
        expect(parent?.sex).toBe(sex);
        if (parent?.hatchDate) {
          const age = day - dayOf(parent.hatchDate);
          expect(age, spawn.tag).toBeGreaterThanOrEqual(120);
          expect(age, spawn.tag).toBeLessThanOrEqual(366);
        }
        if (parent?.disposition !== 'keeper')
          expect(
            (parent?.dispositionDate ?? '') > spawnedOn,
            `${spawn.tag} ${parent?.tag ?? ''}`,
          ).toBe(true);
        expect(day - (lastSpawn.get(id) ?? -Infinity)).toBeGreaterThanOrEqual(rest);
        lastSpawn.set(id, day);
      }
    }
  });

  it('has loops of several kinds, with broods between F 0.2 and 0.6 and outcrosses at 0', () => {
    const pedigree = pedigreeOf(scenario);
    const inbreeding = inbreedingCoefficients(pedigree);
    const ofSpawns = scenario.spawns.flatMap((spawn) => {
      const young = scenario.fish.find((fish) => fish.spawnId === spawn.id);
      return young ? [inbreeding[pedigree.indexOf(young.id)] ?? 0] : [];
    });
    const highest = Math.max(...ofSpawns);
    expect(highest).toBeGreaterThan(0.2);
    expect(highest).toBeLessThan(0.6);
    expect(ofSpawns.filter((value) => value === 0).length).toBeGreaterThanOrEqual(6);
    const related = scenario.spawns.map((spawn) => {
      const sire = byId.get(spawn.sireId);
      const dam = byId.get(spawn.damId);
      const ofSire = sire && spawnOf(scenario, sire);
      const ofDam = dam && spawnOf(scenario, dam);
      if (ofSire?.damId === spawn.damId || ofDam?.sireId === spawn.sireId) return 'parent';
      const shared =
        Number(ofSire !== undefined && ofSire.sireId === ofDam?.sireId) +
        Number(ofSire !== undefined && ofSire.damId === ofDam?.damId);
      return ['other', 'half sibs', 'full sibs'][shared];
    });
    expect(new Set(related)).toEqual(new Set(['parent', 'other', 'half sibs', 'full sibs']));
  });

  it('states a reason for every cull, loss and placing', () => {
    for (const loss of scenario.spawnLosses) {
      expect(loss.reason).not.toBe('');
      expect(loss.number).toBeGreaterThan(0);
    }
    const gone = scenario.fish.filter((fish) =>
      ['culled', 'placed', 'died'].includes(fish.disposition),
    );
    expect(gone.filter((fish) => fish.disposition === 'culled').length).toBeGreaterThan(10);
    for (const fish of gone) expect(fish.dispositionReason, fish.tag).toBeTruthy();
  });

  it('accounts for every egg', () => {
    for (const spawn of scenario.spawns) {
      const count = (stage: string) =>
        scenario.spawnCounts.find((one) => one.spawnId === spawn.id && one.stage === stage)?.number;
      const eggs = count('eggs');
      if (count('sorted') === undefined || eggs === undefined) continue;
      const losses = scenario.spawnLosses.filter((one) => one.spawnId === spawn.id);
      // Young broods may still have fish without a record to place.
      const placed = losses.some((one) => one.kind === 'placed');
      const lost = losses.reduce((sum, one) => sum + one.number, 0);
      const recorded = scenario.fish.filter((fish) => fish.spawnId === spawn.id).length;
      if (placed) expect(lost + recorded, spawn.tag).toBe(eggs);
      else expect(lost + recorded, spawn.tag).toBeLessThanOrEqual(eggs);
    }
    const stages = ['eggs', 'hatched', 'free_swimming', 'two_weeks', 'jarred', 'sorted'];
    for (const spawn of scenario.spawns) {
      const numbers = stages.flatMap((stage) =>
        scenario.spawnCounts
          .filter((one) => one.spawnId === spawn.id && one.stage === stage)
          .map((one) => one.number),
      );
      expect(numbers).toEqual([...numbers].sort((a, b) => b - a));
    }
  });

  it('dates nothing after today, and has fry of two weeks now', () => {
    const dates = [
      ...scenario.spawns.map((spawn) => spawn.spawnedOn ?? ''),
      ...scenario.careRecords.map(({ at }) => at.slice(0, 10)),
      ...scenario.fish.map((fish) => fish.hatchDate ?? ''),
      ...scenario.fish.map((fish) => fish.dispositionDate ?? ''),
      ...scenario.spawnCounts.map((one) => one.countedOn),
      ...scenario.spawnLosses.map((one) => one.onDate),
      ...scenario.scores.map((score) => score.scoredOn),
      ...scenario.spawnEvents.map(({ at }) => at.slice(0, 10)),
    ];
    expect(dates.filter((date) => date > today)).toEqual([]);
    const fry = scenario.spawns.find((spawn) => spawn.hatchDate === '2026-02-28');
    expect(fry).toBeDefined();
    expect(
      scenario.spawnCounts.some(
        (one) => one.spawnId === fry?.id && one.stage === 'two_weeks' && one.number > 0,
      ),
    ).toBe(true);
    expect(scenario.fish.some((fish) => fish.spawnId === fry?.id)).toBe(false);
  });

  it('has three spawns under way: being set up, in the nest, and just swimming', () => {
    const stages = scenario.spawns.flatMap((spawn) => {
      const last = scenario.spawnEvents.filter((event) => event.spawnId === spawn.id).at(-1);
      const old = (spawn.spawnedOn ?? today) < '2026-03-01';
      return last === undefined || old || spawn.failed ? [] : [last.kind];
    });
    expect(stages.sort()).toEqual(['conditioning', 'dam_out', 'free_swimming']);
    const spawns = new Set(scenario.spawns.map((spawn) => spawn.id));
    for (const record of scenario.careRecords) expect(spawns.has(record.spawnId)).toBe(true);
    expect(scenario.careRecords.length).toBeGreaterThan(20);
  });

  it('leaves one living young of an albino that died: the last carrier of its line', () => {
    const albinos = scenario.phenotypes.filter(({ phenotype }) => phenotype === 'albino');
    expect(albinos).toHaveLength(1);
    const sire = byId.get(albinos[0]!.fishId)!;
    expect(sire).toMatchObject({ disposition: 'died', spawnId: null });
    expect(genotypes.get(`${sire.id}|al`)).toBe('al/al');
    const young = scenario.fish.filter((fish) => spawnOf(scenario, fish)?.sireId === sire.id);
    expect(young.map(({ disposition }) => disposition)).toEqual(['hold', 'placed', 'placed']);
    expect(scenario.spawns.filter(({ sireId }) => young.some(({ id }) => id === sireId))).toEqual(
      [],
    );
    const aims = scenario.linePurposes.find(({ lineId }) => lineId === sire.lineId)!.content.looks!;
    expect(aims.map(({ look }) => look.show)).toContainEqual({ al: 'albino' });
  });

  it('knows genotypes that both parents could have given', () => {
    expect(genotypes.size).toBe(scenario.genotypes.length);
    let checked = 0;
    for (const fish of scenario.fish) {
      const spawn = spawnOf(scenario, fish);
      for (const locus of Object.keys(SYMBOLS) as DemoLocus[]) {
        const own = genotypes.get(`${fish.id}|${locus}`);
        const sire = genotypes.get(`${spawn?.sireId ?? ''}|${locus}`);
        const dam = genotypes.get(`${spawn?.damId ?? ''}|${locus}`);
        if (own === undefined || sire === undefined || dam === undefined) continue;
        const gives = (parent: string) =>
          [0, 1].filter((allele) => parent.split('/').includes(SYMBOLS[locus][allele] ?? ''));
        const possible = gives(sire).flatMap((a) => gives(dam).map((b) => a + b));
        expect(possible, `${fish.tag} ${locus}`).toContain(dosesIn(locus, own));
        checked += 1;
      }
    }
    expect(checked).toBeGreaterThan(100);
  });

  it('tells the two stories: black females bring no young, and double tail comes out of hiding', () => {
    const failed = scenario.spawns.filter((spawn) => spawn.failed);
    expect(failed).toHaveLength(1);
    for (const spawn of scenario.spawns) {
      const black = genotypes.get(`${spawn.damId}|m`) === 'm/m';
      expect(black, spawn.tag).toBe(spawn.failed);
    }
    expect(scenario.classCounts.some((one) => one.phenotype === 'double tail')).toBe(true);
    const bramble = scenario.fish.find((fish) => fish.name === 'Bramble');
    expect(genotypes.get(`${bramble?.id ?? ''}|dt`)).toBe('Dt/dt');
    expect(scenario.genotypes.some((one) => one.basis === 'test_mating')).toBe(true);
  });
});

/** Deviations from the Mendelian expectation over all broods whose parents' genotypes are known: [sum of chi-squares, df]. */
function totalChiSquare(scenario: DemoScenario): readonly [number, number] {
  const genotype = new Map(scenario.genotypes.map((g) => [`${g.fishId}|${g.locusId}`, g.genotype]));
  let sum = 0;
  let freedom = 0;
  for (const spawn of scenario.spawns) {
    for (const locus of ['bl', 'm', 'c'] as const) {
      const counts = scenario.classCounts.filter(
        (one) => one.spawnId === spawn.id && one.locusIds[0] === locus,
      );
      const sire = genotype.get(`${spawn.sireId}|${locus}`);
      const dam = genotype.get(`${spawn.damId}|${locus}`);
      if (counts.length === 0 || sire === undefined || dam === undefined) continue;
      const total = counts.reduce((all, one) => all + one.number, 0);
      const share = new Map<string, number>();
      for (const a of sire.split('/')) {
        for (const b of dam.split('/')) {
          const phenotype = PHENOTYPES[locus][dosesIn(locus, `${a}/${b}`) as 0 | 1 | 2];
          share.set(phenotype, (share.get(phenotype) ?? 0) + 0.25);
        }
      }
      for (const one of counts)
        expect(share.has(one.phenotype), `${spawn.tag} ${one.phenotype}`).toBe(true);
      freedom += share.size - 1;
      for (const [phenotype, probability] of share) {
        const observed = counts.find((one) => one.phenotype === phenotype)?.number ?? 0;
        sum += (observed - total * probability) ** 2 / (total * probability);
      }
    }
  }
  return [sum, freedom];
}

describe('the loci of the demo', () => {
  it('are written and named as in the catalogue', () => {
    for (const [id, symbols] of Object.entries(SYMBOLS)) {
      const locus = findLocus(id);
      expect(locus.alleles.map((allele) => allele.symbol)).toEqual(symbols);
      expect(new Set(PHENOTYPES[id as DemoLocus])).toEqual(
        new Set(locus.phenotypes.map((one) => one.name)),
      );
    }
  });
});

describe('broods of the demo', () => {
  it('fit their expectations as a whole, neither too badly nor too well', () => {
    for (const [seed, scenario] of scenarios) {
      const [sum, freedom] = totalChiSquare(scenario);
      expect(freedom).toBeGreaterThan(25);
      // Wilson and Hilferty 1931 (PNAS 17:684-688): the cube root of chi-square over df is nearly normal.
      const z = (Math.cbrt(sum / freedom) - (1 - 2 / (9 * freedom))) / Math.sqrt(2 / (9 * freedom));
      expect(Math.abs(z), `seed ${seed}: chi-square ${sum.toFixed(1)}, df ${freedom}`).toBeLessThan(
        3,
      );
    }
  });

  it('refuses what is not a date', () => {
    expect(() => demoScenario({ seed: 1, today: '14-03-2026' })).toThrow(RangeError);
  });
});
