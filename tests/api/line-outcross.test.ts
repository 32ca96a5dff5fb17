import { inbreedingCoefficients } from '@linewright/kinship';
import { buildPedigree } from '@linewright/pedigree';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { ComputationsService } from '../../apps/api/src/jobs/computations.service.js';
import { daysAgo } from '../clock.js';
import { type Records, recordsOn } from './carrier-records.js';
import { newRecords } from '../new-records.js';
import { type RunningApi, startApi } from './harness.js';
import { saidOf } from './said-purpose.js';

const COURSE = `generations { generation inbreeding lineShare traits { traitId mean standardError }
  alleles { alleleId frequency carried twice } } traits { name lineMean partner lost backAfter }
  alleles { alleleId symbol inLine inPartner }`;
const STRATEGY = `simulations broods generations { generation inbreeding { mean standardError }
  traits { mean { mean } } alleles { symbol stillThere } }`;
const POINT = 'figure name without withIt';
const OUTCROSS = `query ($input: LineOutcrossInput!) { lineOutcross(input: $input) { whyNone waiting { id state progress }
  partner { id tag } mate { id tag } back { id tag } basis lineInbreeding ceiling parentGenerations cautions leftOut
  backcrosses { ${COURSE} } within { ${COURSE} } whyNoChance whyNoForecast
  chance { share generations chance standardError low high byGeneration simulations meanMonths fry inbreeding { mean low high } }
  forecast { verdict without { ${STRATEGY} } withIt { ${STRATEGY} } needs { ${POINT} } gains { ${POINT} } costs { ${POINT} } } } }`;

interface Generation {
  generation: number;
  inbreeding: number;
  lineShare: number;
  traits: { mean: number; standardError: number }[];
  alleles: { frequency: number; carried: number; twice: number }[];
}
interface Course {
  generations: Generation[];
  traits: {
    name: string;
    lineMean: number;
    partner: number;
    lost: number;
    backAfter: number | null;
  }[];
  alleles: { symbol: string; inLine: number; inPartner: number }[];
}
interface Strategy {
  simulations: number;
  generations: { inbreeding: { mean: number }; alleles: { stillThere: number }[] }[];
}
interface Point {
  figure: string;
  name: string;
  without: number;
  withIt: number;
}
interface Outcross {
  whyNone: string | null;
  waiting: { id: string; state: string; progress: number } | null;
  partner: { id: string; tag: string } | null;
  mate: { id: string; tag: string } | null;
  back: { id: string; tag: string } | null;
  basis: string;
  lineInbreeding: number | null;
  parentGenerations: number;
  cautions: string[];
  leftOut: string[];
  backcrosses: Course | null;
  within: Course | null;
  whyNoChance: string | null;
  whyNoForecast: string | null;
  chance: {
    chance: number;
    standardError: number;
    low: number;
    high: number;
    byGeneration: number[];
    simulations: number;
  } | null;
  forecast: {
    verdict: string;
    without: Strategy;
    withIt: Strategy;
    needs: Point[];
    gains: Point[];
    costs: Point[];
  } | null;
}

describe('an outcross of a line to one partner', () => {
  let api: RunningApi;
  let records: Records;
  let [lineId, traitId] = ['', ''];
  const ids = new Map<string, string>();
  const of = (tag: string): string => ids.get(tag)!;
  /** As the fish are told to the API. */
  const told: { id: string; sire?: string; dam?: string }[] = [];

  const outcross = async (more: object = {}): Promise<Outcross> => {
    const input = { lineId, forecastGenerations: 3, fryPerBrood: 6, ...more };
    return (await api.graphql<{ lineOutcross: Outcross }>(OUTCROSS, { input })).lineOutcross;
  };
  const simulated = async (more: object = {}): Promise<Outcross> => {
    for (;;) {
      const found = await outcross(more);
      if (found.waiting === null) return found;
      expect(['QUEUED', 'RUNNING']).toContain(found.waiting.state);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  };
  const say = async (expectedVersion: number, more: object) => {
    const content = saidOf({
      traits: [{ traitId, better: 'HIGHER', low: 150, high: null, worth: 1 }],
      ...{ broods: 2, kinshipRise: null, ceiling: 0.4, ...more },
    });
    const input = { lineId, expectedVersion, content };
    await api.graphql(
      `mutation ($input: SayWhatLineIsForInput!) { sayWhatLineIsFor(input: $input) { version } }`,
      { input },
    );
  };
  const doubleTail = {
    show: [{ locusId: 'dt', phenotype: 'double' }],
    ...{ wanted: true, worth: 5, required: false },
  };

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    lineId = await records.line('K');
    const otherId = await records.line('O');
    const make = newRecords(api);
    traitId = await make.createTrait({
      key: 'spread',
      name: 'spread',
      kind: 'MEASURED',
      unit: '°',
    });
    const founder = { declaredUnrelated: true, hatchDate: daysAgo(700), disposition: 'ELSEWHERE' };
    const fish = async (tag: string, sex: 'MALE' | 'FEMALE', more: object) => {
      ids.set(tag, await records.fish(tag, sex, { lineId, ...more }));
    };
    const brood = async (tag: string, sire: string, dam: string, age: number, young: string[]) => {
      const spawnId = await records.spawn(tag, of(sire), of(dam), {
        ...{ lineId, spawnedOn: daysAgo(age + 2), hatchDate: daysAgo(age) },
      });
      for (const [k, one] of young.entries()) {
        await fish(one, k % 2 === 0 ? 'MALE' : 'FEMALE', {
          ...{ spawnId, hatchDate: daysAgo(age), disposition: age > 300 ? 'ELSEWHERE' : 'KEEPER' },
        });
        told.push({ id: one, sire, dam });
      }
    };
    await fish('S', 'MALE', founder);
    await fish('D', 'FEMALE', founder);
    told.push({ id: 'S' }, { id: 'D' });
    await brood('K1', 'S', 'D', 450, ['P1', 'P2', 'Q1', 'Q2']);
    await brood('K2', 'P1', 'P2', 200, ['m1', 'f1', 'm2']);
    await brood('K3', 'Q1', 'Q2', 200, ['m3', 'f2']);
    const other = { lineId: otherId, hatchDate: daysAgo(200), disposition: 'KEEPER' };
    await fish('X', 'FEMALE', { ...other, declaredUnrelated: true });
    await fish('Y', 'MALE', other);
    await fish('gone', 'MALE', { ...other, disposition: 'DIED' });
    told.push({ id: 'X' });
    for (const [tag, value] of Object.entries({
      m1: 178,
      f1: 175,
      m2: 171,
      m3: 170,
      f2: 174,
      X: 140,
      Y: 150,
    }))
      await make.recordScores({
        ...{ fishId: of(tag), scoredOn: daysAgo(20), scores: [{ traitId, value }] },
      });
    for (const [tag, genotype] of Object.entries({
      S: 'Dt/Dt',
      D: 'Dt/Dt',
      X: 'Dt/dt',
      Y: 'dt/dt',
    }))
      await make.recordGenotype({
        ...{ fishId: of(tag), locusId: 'dt', genotype, basis: 'LABORATORY' },
      });
    await say(0, { looks: [doubleTail] });
  });
  afterAll(() => api.close());

  it('tells F by generation as the engine has it with the young written in', async () => {
    const found = await outcross({ partnerId: of('X'), mateId: of('m1'), backId: of('m3') });
    expect(found).toMatchObject({
      ...{ whyNone: null, basis: 'KNOWN', lineInbreeding: 0.25, cautions: [] },
      ...{ partner: { tag: 'X' }, mate: { tag: 'm1' }, back: { tag: 'm3' } },
    });
    const written = (young: { id: string; sire: string; dam: string }[]): number[] => {
      const pedigree = buildPedigree([...told, ...young]);
      const f = inbreedingCoefficients(pedigree);
      return young.map(({ id }) => f[pedigree.indexOf(id)]!);
    };
    const back = written([
      { id: 'x1', sire: 'm1', dam: 'X' },
      ...['x1', 'x2', 'x3'].map((dam, k) => ({ id: `x${k + 2}`, sire: 'm3', dam })),
    ]);
    const sibs = written([
      ...['a', 'b'].map((id) => ({ id: `${id}1`, sire: 'm1', dam: 'X' })),
      ...[1, 2, 3].flatMap((t) =>
        ['a', 'b'].map((id) => ({ id: `${id}${t + 1}`, sire: `a${t}`, dam: `b${t}` })),
      ),
    ]).filter((_, k) => k % 2 === 0);
    const told4 = (course: Course | null) =>
      course!.generations.map(({ inbreeding }) => inbreeding);
    for (const [course, f] of [[found.backcrosses, back] as const, [found.within, sibs] as const])
      told4(course).forEach((one, k) => expect(one).toBeCloseTo(f[k]!, 12));
    expect(found.backcrosses!.generations.map(({ lineShare }) => lineShare)).toEqual([
      ...[1 / 2, 3 / 4, 7 / 8, 15 / 16],
    ]);
    expect(found.within!.generations.map(({ lineShare }) => lineShare)).toEqual(Array(4).fill(0.5));
  });

  it('tells traits by halves of the fish they come from, and what is lost', async () => {
    const line = ['m1', 'f1', 'm2', 'm3', 'f2'];
    const courses = await Promise.all(
      line.map(async (tag) => {
        const asked = { partnerId: of('X'), mateId: of('m1'), backId: of(tag) };
        return (await outcross(asked)).backcrosses!;
      }),
    );
    const means = courses.map(({ generations }) =>
      generations.map(({ traits: [one] }) => one!.mean),
    );
    // A backcross is half the cross and half the fish gone back to.
    const values = means.map(([cross, first]) => 2 * first! - cross!);
    const [trait] = courses[0]!.traits;
    expect(trait!.name).toBe('spread');
    expect(trait!.lineMean).toBeCloseTo(
      values.reduce((sum, one) => sum + one / 5, 0),
      9,
    );
    means.forEach(([cross, first, second, third], k) => {
      expect(cross).toBeCloseTo((trait!.partner + values[0]!) / 2, 9);
      expect(second).toBeCloseTo((first! + values[k]!) / 2, 9);
      expect(third).toBeCloseTo((second! + values[k]!) / 2, 9);
    });
    expect(trait!.lost).toBeCloseTo(trait!.lineMean - means[0]![0]!, 9);
    expect(trait!.lost).toBeGreaterThan(0);
    expect(trait!.backAfter).not.toBe(0);
    const { rankedFish } = await api.graphql<{
      rankedFish: { edges: { node: { fish: { tag: string }; value: number } }[] };
    }>('query ($id: ID!) { rankedFish(traitId: $id) { edges { node { fish { tag } value } } } }', {
      id: traitId,
    });
    // The list weighs all heritabilities that may be, the simulation takes one: near, not equal.
    const listed = (tag: string): number =>
      rankedFish.edges.find(({ node }) => node.fish.tag === tag)!.node.value;
    const error = courses[0]!.generations[0]!.traits[0]!.standardError;
    line.forEach((tag, k) =>
      expect(Math.abs(listed(tag) - listed('X') - (values[k]! - trait!.partner))).toBeLessThan(
        error,
      ),
    );
  });

  it('tells what becomes of a wanted allele', async () => {
    const { backcrosses, within } = await outcross({ partnerId: of('X'), mateId: of('m1') });
    expect(backcrosses!.alleles).toMatchObject([{ symbol: 'dt', inLine: 0, inPartner: 0.5 }]);
    const carried = ({ generations }: Course) =>
      generations.map(({ alleles: [one] }) => one!.carried);
    expect(carried(backcrosses!)).toEqual([1 / 2, 1 / 4, 1 / 8, 1 / 16]);
    // Half of the young carry it: of four pairs of sibs one is of two carriers, two of one.
    expect(within!.generations[1]!.alleles[0]).toMatchObject({
      ...{ frequency: 1 / 4, carried: 7 / 16, twice: 1 / 16 },
    });
  });

  it('simulates the chance, and the line without and with it', async () => {
    const found = await simulated({ partnerId: of('Y') });
    expect(found.basis).toBe('AT_LEAST');
    const chance = found.chance!;
    expect(chance.simulations).toBe(2_000);
    expect(chance.standardError).toBeCloseTo(
      Math.sqrt((chance.chance * (1 - chance.chance)) / 2_000),
      12,
    );
    expect(chance.byGeneration).toHaveLength(4);
    expect(chance.byGeneration.at(-1)).toBeCloseTo(chance.chance, 12);
    const { without, withIt, verdict, needs, gains } = found.forecast!;
    expect(without.simulations).toBe(withIt.simulations);
    expect(without.generations).toHaveLength(4);
    // The line has none of it; the partner gives it to every young.
    expect(without.generations.at(-1)!.alleles[0]!.stillThere).toBe(0);
    expect(withIt.generations[1]!.alleles[0]!.stillThere).toBe(1);
    // Sibs of sibs pass 0.4 within three generations.
    expect(verdict).toBe('OUTCROSS');
    expect(needs).toMatchObject([{ figure: 'INBREEDING', name: '' }]);
    expect(needs[0]!.without).toBeGreaterThan(0.4);
    expect(gains.map(({ figure, name }) => [figure, name])).toContainEqual([
      'ALLELE',
      'dt (Double tail)',
    ]);
    expect(await simulated({ partnerId: of('Y') })).toEqual(found);
  });

  it('is done also where it came to its end while it was asked for', async () => {
    const before = await simulated({ partnerId: of('Y') });
    const late = vi
      .spyOn(api.served.app.get(ComputationsService), 'answer')
      .mockResolvedValueOnce(null);
    expect(await outcross({ partnerId: of('Y') })).toEqual(before);
    late.mockRestore();
  });

  it('tells only what follows exactly when that is asked', async () => {
    const found = await outcross({ partnerId: of('Y'), backId: of('m2'), simulated: false });
    expect(found).toMatchObject({ waiting: null, chance: null, forecast: null });
    expect(found.backcrosses!.generations).toHaveLength(4);
  });

  it('tells a line that has what it needs to wait', async () => {
    await say(1, { ceiling: 1, looks: [] });
    const { forecast, chance, whyNoChance } = await simulated({ partnerId: of('X') });
    expect(forecast).toMatchObject({ verdict: 'NOT_NOW', needs: [] });
    expect([chance === null, whyNoChance]).toEqual([false, null]);
    await say(2, { looks: [doubleTail] });
  });

  it('takes a fish that is not on record by its looks', async () => {
    const described = (shows: object[], sex = 'FEMALE') => ({ described: { sex, shows } });
    const found = await outcross(described([{ locusId: 'dt', phenotype: 'double' }]));
    expect(found).toMatchObject({ whyNone: null, partner: null, basis: 'KNOWN' });
    expect(found.backcrosses!.generations[0]!).toMatchObject({ inbreeding: 0 });
    expect(found.backcrosses!.generations[0]!.alleles[0]).toMatchObject({ carried: 1, twice: 0 });
    expect(found.backcrosses!.alleles[0]).toMatchObject({ inPartner: 1 });
    expect(found.leftOut[0]).toContain('not on record');
    // Single tail with equally common alleles: two of three of such fish carry it.
    const single = await outcross(described([{ locusId: 'dt', phenotype: 'single' }]));
    expect(single.backcrosses!.alleles[0]!.inPartner).toBeCloseTo(1 / 3, 12);
    const other = await outcross(described([{ locusId: 'ct', phenotype: 'crown' }]));
    expect(other.leftOut.join()).toContain('ct changes nothing here');
  });

  it('says why a partner cannot be taken', async () => {
    const gone = await outcross({ partnerId: of('gone') });
    expect(gone).toMatchObject({ backcrosses: null, waiting: null, forecast: null });
    expect(gone.whyNone).toContain('gone died');
  });

  it.each([
    ['partnerId', () => ({ partnerId: of('m2') })],
    ['partnerId', () => ({})],
    ['partnerId', () => ({ partnerId: of('X'), described: { sex: 'MALE', shows: [] } })],
    ['mateId', () => ({ partnerId: of('X'), mateId: of('f1') })],
    ['mateId', () => ({ partnerId: of('X'), mateId: of('Y') })],
    ['backId', () => ({ partnerId: of('X'), backId: of('X') })],
    ['described.sex', () => ({ described: { sex: 'UNSEXED', shows: [] } })],
    [
      'described.shows',
      () => ({
        described: { sex: 'MALE', shows: Array(2).fill({ locusId: 'dt', phenotype: 'single' }) },
      }),
    ],
    ['generations', () => ({ partnerId: of('X'), generations: 7 })],
    ['forecastGenerations', () => ({ partnerId: of('X'), forecastGenerations: 0 })],
    ['fryPerBrood', () => ({ partnerId: of('X'), fryPerBrood: 1 })],
    ['share', () => ({ partnerId: of('X'), share: 0 })],
  ])('refuses a wrong %s', async (field, more) => {
    const { errors } = await api.send(OUTCROSS, { input: { lineId, ...more() } });
    expect(errors?.[0]?.extensions['fields']).toMatchObject([{ field }]);
  });

  it('refuses a look that no genotype shows, and names it', async () => {
    const described = { sex: 'MALE', shows: [{ locusId: 'dt', phenotype: 'striped' }] };
    const { errors } = await api.send(OUTCROSS, { input: { lineId, described } });
    expect(errors?.[0]).toMatchObject({
      ...{ message: expect.stringContaining('striped') as string },
      extensions: { code: 'MATING_BAD_SETTING' },
    });
  });

  it('can be stopped, and stays stopped', async () => {
    const asked = { partnerId: of('X'), forecastGenerations: 10, fryPerBrood: 100 };
    const { waiting } = await outcross(asked);
    await api.graphql('mutation ($id: ID!) { cancelComputation(id: $id) { state } }', {
      id: waiting!.id,
    });
    for (;;) {
      const found = await outcross(asked);
      expect(found.waiting).not.toBeNull();
      if (found.waiting!.state !== 'CANCELLED') continue;
      expect(found.forecast).toBeNull();
      expect(found.backcrosses!.generations).toHaveLength(4);
      break;
    }
  });
});
