import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Records, recordsOn } from './carrier-records.js';
import { type RunningApi, startApi } from './harness.js';
import { creation, newRecords } from '../new-records.js';

/**
 * Figures of the screens against an enumeration written apart: every genotype two parents may pass on, what hides what, and
 * what does not live. Genotypes are drawn from a fixed seed.
 */
const SYMBOLS: Record<string, [string, string]> = {
  al: ['Al', 'al'],
  c: ['C', 'c'],
  b: ['B', 'b'],
  m: ['M', 'm'],
};
type Set = Record<string, string>;
type Dose = Record<string, number>;

let state = 77;
const random = () => (state = (state * 48_271) % 2_147_483_647) / 2_147_483_647;
const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
const genotype = (id: string, dose: number): string => {
  const [dominant, recessive] = SYMBOLS[id] ?? ['', ''];
  return dose === 0 ? `${dominant}/${dominant}` : dose === 1 ? `${dominant}/${recessive}` : `${recessive}/${recessive}`;
}; // prettier-ignore

/** Chance that a parent with so many recessive copies passes one on. */
const passes = (dose: number) => dose / 2;

/** Every young by recessive copies, with its chance. */
const young = (sire: Dose, dam: Dose): { dose: Dose; chance: number }[] =>
  Object.keys(sire).reduce<{ dose: Dose; chance: number }[]>(
    (list, id) =>
      list.flatMap(({ dose, chance }) => {
        const [s, d] = [passes(sire[id] ?? 0), passes(dam[id] ?? 0)];
        return [(1 - s) * (1 - d), s * (1 - d) + (1 - s) * d, s * d].flatMap((p, copies) =>
          p > 0 ? [{ dose: { ...dose, [id]: copies }, chance: chance * p }] : [],
        );
      }),
    [{ dose: {}, chance: 1 }],
  );

/** What is to be seen at a locus; null where another locus hides it. */
const seen = (dose: Dose, id: string): string | null => {
  const albino = dose['al'] === 2;
  if (id === 'c') return albino ? null : dose['c'] === 2 ? 'cambodian' : 'dark';
  if (id === 'b') return albino || dose['c'] === 2 ? null : dose['b'] === 2 ? 'blond' : 'full';
  if (id === 'm') return albino ? null : dose['m'] === 2 ? 'melano' : 'ordinary';
  if (id === 'al') return albino ? 'albino' : 'pigmented';
  throw new Error(`No locus ${id} here.`);
};
const shareSeen = (sire: Dose, dam: Dose, id: string, look: string): number =>
  young(sire, dam).reduce((sum, one) => sum + (seen(one.dose, id) === look ? one.chance : 0), 0);
const fryFor = (share: number): number | null => {
  if (share === 0) return null;
  let n = 1;
  while ((1 - share) ** n > 0.05 + 1e-12) n++;
  return n;
};

const CANDIDATES = `query ($input: PairingInput!) { pairingCandidates(input: $input, first: 100) { edges { node {
  sire { id } dam { id } reasons { code figure } classes { fraction probability fryForOne95 parts { locusIds phenotype } } } } } }`;
const PAIR = `query ($sireId: ID!, $damId: ID!) { pairOutlook(sireId: $sireId, damId: $damId, broodSize: 40) {
  loci { locusId founders assumed classes { phenotype probability canGive } } } }`;
const CROSS = `query ($input: CrossInput!) { cross(input: $input) { assumed lostFraction
  classes { probability fraction fryForOne95 shares { weight fraction } parts { locusIds phenotype } } } }`;
const BROOD = `query ($spawnId: ID!) { broodOutlook(spawnId: $spawnId) { loci { locusId founders
  classes { phenotype observed expectedShare } pairs { before after } } } }`;

interface Class {
  fraction: string;
  probability: number;
  fryForOne95: number | null;
  shares: { weight: number; fraction: string }[];
  parts: { locusIds: string[]; phenotype: string }[];
}
const DEFINE = creation('defineLocus');
const GENOTYPE = creation('recordGenotype');
const OWN_PAIR = `query ($sireId: ID!, $damId: ID!) { pairOutlook(sireId: $sireId, damId: $damId, broodSize: 40) {
  loci { locusId lostShare classes { phenotype probability fryForOne95 } pairs { sire dam probability } } } }`;

/** Two loci of a person's own: shares of the looks in fifths, survival in thirds; the second number is copies of the small letter. */
const OWN: Record<string, { symbols: [string, string]; veiledFifths: number[]; livesThirds: number[]; looks: [string, string] }> = {
  veil: { symbols: ['V', 'v'], looks: ['plain', 'veiled'], veiledFifths: [0, 4, 5], livesThirds: [3, 3, 0] },
  frost: { symbols: ['F', 'f'], looks: ['clear', 'frosted'], veiledFifths: [0, 0, 5], livesThirds: [3, 3, 1] },
}; // prettier-ignore
const copies = (genotype: string) => genotype.split('/').filter((one) => one === one.toLowerCase());
/** Of the four unions of two parents at a locus: fifteenths (of each union) that live and show the first or second look. */
const unions = (locusId: string, sire: string, dam: string): [number, number] => {
  const { veiledFifths, livesThirds } = OWN[locusId] ?? { veiledFifths: [], livesThirds: [] };
  const sum: [number, number] = [0, 0];
  for (const one of sire.split('/'))
    for (const other of dam.split('/')) {
      const at = copies(`${one}/${other}`).length;
      const [veiled, lives] = [veiledFifths[at] ?? NaN, livesThirds[at] ?? NaN];
      sum[0] += (5 - veiled) * lives;
      sum[1] += veiled * lives;
    }
  return sum;
};
const reduced = (n: number, of: number): string => {
  const common = (a: number, b: number): number => (b === 0 ? a : common(b, a % b));
  const by = common(n, of);
  return of === by ? String(n / by) : `${String(n / by)}/${String(of / by)}`;
};

const NAMES: Record<string, string> = {
  melano: 'melano (dense black)',
  blond: 'blond, red brighter',
};

describe('figures of the screens', () => {
  let api: RunningApi;
  let records: Records;
  const stock: { id: string; male: boolean; dose: Dose }[] = [];

  beforeAll(async () => {
    api = await startApi();
    records = recordsOn(api);
    for (let i = 0; i < 6; i++) {
      const male = i % 2 === 0;
      const dose: Dose = {};
      const id = await records.fish(`Z-${i}`, male ? 'MALE' : 'FEMALE', { disposition: 'KEEPER' });
      for (const locusId of ['al', 'c', 'b', 'm']) {
        dose[locusId] = pick([0, 1, 1, 2]);
        await newRecords(api).recordGenotype({ fishId: id, locusId, genotype: genotype(locusId, dose[locusId] ?? 0), basis: 'LABORATORY' }); // prettier-ignore
      }
      stock.push({ id, male, dose });
    }
  }, 120_000);
  afterAll(() => api.close());

  const doseOf = (id: string): Dose => stock.find((one) => one.id === id)?.dose ?? {};

  it.each([
    ['m', 'melano'],
    ['b', 'blond'],
    ['c', 'cambodian'],
  ])('next pairing: a wish for %s: %s is what is to be seen, in the reason and in the classes', async (locusId, look) => {
    const { pairingCandidates } = await api.graphql<{
      pairingCandidates: {
        edges: { node: { sire: { id: string }; dam: { id: string }; reasons: { code: string; figure: number | null }[]; classes: Class[] } }[];
      };
    }>(CANDIDATES, { input: { wantClasses: [`${locusId}:${look}`] } });
    expect(pairingCandidates.edges).toHaveLength(9);
    for (const { node } of pairingCandidates.edges) {
      const share = shareSeen(doseOf(node.sire.id), doseOf(node.dam.id), locusId, look);
      expect(node.reasons.find((one) => one.code === 'WANTED_CLASS')?.figure).toBeCloseTo(share, 9);
      const shown = node.classes.filter((one) =>
        one.parts.some((part) => part.locusIds[0] === locusId && part.phenotype === (NAMES[look] ?? look)),
      );
      expect(shown.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(share, 9);
      for (const one of node.classes) expect(one.fryForOne95).toBe(fryFor(one.probability));
    }
  }); // prettier-ignore

  it("a pair's outlook leaves out what another locus hides, and says what it assumes of founders", async () => {
    for (const sire of stock.filter((one) => one.male)) {
      const dam = stock.find((one) => !one.male);
      const { pairOutlook } = await api.graphql<{
        pairOutlook: { loci: { locusId: string; founders: string; classes: { phenotype: string; probability: number }[] }[] };
      }>(PAIR, { sireId: sire.id, damId: dam?.id });
      for (const [locusId, look] of [['m', 'melano'], ['b', 'blond'], ['c', 'cambodian'], ['al', 'albino']] as const) {
        const locus = pairOutlook.loci.find((one) => one.locusId === locusId);
        expect(locus?.founders).toContain('equally common');
        const name = look === 'albino' ? 'albino (red eye)' : (NAMES[look] ?? look);
        const found = locus?.classes.find((one) => one.phenotype === name)?.probability ?? 0;
        expect(found).toBeCloseTo(shareSeen(sire.dose, dam?.dose ?? {}, locusId, look), 9);
        expect(locus?.classes.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(1, 9);
      }
    }
  }); // prettier-ignore

  it('a cross of parents known in part: fry to raise count all that the share may be, and never is null', async () => {
    const set = (of: Set) => Object.entries(of).map(([locusId, text]) => ({ locusId, genotype: text }));
    const { cross } = await api.graphql<{ cross: { classes: Class[] } }>(CROSS, {
      input: { sire: set({ m: 'M/-' }), dam: set({ m: 'm/m' }) },
    });
    // M/- is M/M with 1/3: those pairs give no melano, whatever is raised.
    const melano = cross.classes.find((one) => one.parts[0]?.phenotype === 'melano (dense black)');
    expect(melano?.probability).toBeCloseTo(1 / 3, 9);
    expect(melano?.fryForOne95).toBeNull();
    expect(melano?.shares.map((one) => one.fraction).sort()).toEqual(['0', '1/2']);
    const refused = await api.send('query ($input: BroodSizeInput!) { broodSize(input: $input) }', {
      input: { fraction: '1/3', shares: melano?.shares, certainty: 0.95 },
    });
    expect(refused.errors?.[0]?.extensions.code).toBe('BROOD_SIZE_UNREACHABLE');
  }); // prettier-ignore

  it('before a brood is without its young and theirs: two double tails on record change nothing', async () => {
    const [sire, dam] = [await records.fish('Y-1', 'MALE'), await records.fish('Y-2', 'FEMALE')];
    const spawn = await records.spawn('Y26-01', sire, dam);
    await records.counted(spawn, 'dt', { 'single tail': 30, 'double tail': 10 });
    const ask = async () =>
      (
        await api.graphql<{
          broodOutlook: { loci: { locusId: string; classes: { phenotype: string; expectedShare: number }[] }[] };
        }>(BROOD, { spawnId: spawn })
      ).broodOutlook.loci.find((one) => one.locusId === 'dt');
    const double = (found: Awaited<ReturnType<typeof ask>>) =>
      found?.classes.find((one) => one.phenotype === 'double tail')?.expectedShare;
    // Founders with both alleles equally common: a young fish has two with 1/4.
    expect(double(await ask())).toBeCloseTo(1 / 4, 9);
    const [first, second] = await records.young(spawn, 2);
    for (const one of [first, second]) await records.seen(one?.id ?? '', 'dt', 'double');
    expect(double(await ask())).toBeCloseTo(1 / 4, 9);
    const mate = await records.fish('Y-3', 'FEMALE');
    const next = await records.spawn('Y26-02', first?.id ?? '', mate);
    await records.counted(next, 'dt', { 'double tail': 20 });
    expect(double(await ask())).toBeCloseTo(1 / 4, 9);
  }); // prettier-ignore

  describe("loci of the person's own with a genotype that does not live, or of which few live", () => {
    beforeAll(async () => {
      for (const [locusId, { symbols, looks, veiledFifths, livesThirds }] of Object.entries(OWN)) {
        const [big, small] = symbols;
        const lines = [`${big}/${big}`, `${big}/${small}`, `${small}/${small}`].flatMap((genotype, at) =>
          looks.flatMap((phenotype, second) => {
            const fifths = second === 1 ? (veiledFifths[at] ?? 0) : 5 - (veiledFifths[at] ?? 0);
            const survival = livesThirds[at] === 3 ? {} : { survival: `${String(livesThirds[at])}/3` };
            return fifths === 0 ? [] : [{ genotype, phenotype, share: `${String(fifths)}/5`, ...survival }];
          }),
        );
        const alleles = symbols.map((symbol, i) => ({ symbol, name: looks[i] }));
        await api.graphql(DEFINE, { input: { locusId, name: locusId, alleles, looks: lines } });
      }
    });
    let made = 0;
    const known = async (sex: 'MALE' | 'FEMALE', locusId: string, text: string) => {
      const id = await records.fish(`O-${String(++made)}`, sex);
      await api.graphql(GENOTYPE, { input: { fishId: id, locusId, genotype: text, basis: 'LABORATORY' } });
      return id;
    };
    interface Outlook {
      locusId: string;
      lostShare: number;
      classes: { phenotype: string; probability: number; fryForOne95: number | null }[];
      pairs: { sire: string; dam: string; probability: number }[];
    }
    const outlook = async (sireId: string, damId: string, locusId: string) =>
      (await api.graphql<{ pairOutlook: { loci: Outlook[] } }>(OWN_PAIR, { sireId, damId })).pairOutlook.loci.find(
        (one) => one.locusId === locusId,
      );

    it.each([
      ['veil', 'V/v', 'V/v'],
      ['veil', 'V/V', 'V/v'],
      ['frost', 'F/f', 'F/f'],
      ['frost', 'f/f', 'F/f'],
      ['frost', 'f/f', 'f/f'],
    ])('%s, %s x %s: shares of the living young, and the share of eggs lost', async (locusId, sire, dam) => {
      const found = await outlook(await known('MALE', locusId, sire), await known('FEMALE', locusId, dam), locusId);
      const shown = unions(locusId, sire, dam);
      const living = shown[0] + shown[1];
      OWN[locusId]?.looks.forEach((look, i) => {
        const one = found?.classes.find(({ phenotype }) => phenotype === look);
        const share = (shown[i] ?? NaN) / living;
        expect(one?.probability ?? 0).toBeCloseTo(share, 9);
        expect(one?.fryForOne95 ?? null).toBe(fryFor(share));
      });
      expect(found?.lostShare).toBeCloseTo(1 - living / 60, 9);
    });

    it.each([
      ['veil', 'V/v', 'V/v'],
      ['veil', 'V/V', 'V/v'],
      ['frost', 'F/f', 'F/f'],
      ['frost', 'f/f', 'F/f'],
    ])('next pairing, %s, %s x %s: a wish counts the living young, in the reason and in the classes', async (locusId, sire, dam) => {
      const [sireId, damId] = [await known('MALE', locusId, sire), await known('FEMALE', locusId, dam)];
      const shown = unions(locusId, sire, dam);
      const [, second = ''] = OWN[locusId]?.looks ?? [];
      const input = { sireIds: [sireId], damIds: [damId], includeDiscouraged: true, wantClasses: [`${locusId}:${second}`] };
      const { pairingCandidates } = await api.graphql<{
        pairingCandidates: { edges: { node: { reasons: { code: string; figure: number | null }[]; classes: Class[] } }[] };
      }>(CANDIDATES, { input });
      expect(pairingCandidates.edges).toHaveLength(1);
      const share = shown[1] / (shown[0] + shown[1]);
      for (const { node } of pairingCandidates.edges) {
        expect(node.reasons.find((one) => one.code === 'WANTED_CLASS')?.figure).toBeCloseTo(share, 9);
        const found = node.classes.find((one) => one.parts.some((part) => part.locusIds[0] === locusId && part.phenotype === second));
        expect(found?.probability).toBeCloseTo(share, 9);
        expect(found?.fryForOne95).toBe(fryFor(share));
      }
    });

    it.each(Object.keys(OWN))('next pairing over the whole stock, bought sibs in it: a wish at %s counts the living young of every pair', async (locusId) => {
      const [big = '', small = ''] = OWN[locusId]?.symbols ?? [];
      const living = [`${big}/${big}`, `${big}/${small}`, `${small}/${small}`].filter((_, at) => (OWN[locusId]?.livesThirds[at] ?? 0) > 0);
      // Sibs whose parents nobody knows stand beside the founders, and breed as they do.
      const spawnId = await newRecords(api).createSpawn({ tag: `S-${locusId}`, hatchDate: '2025-05-01' });
      const of = { spawnId, disposition: 'KEEPER' };
      const all = [
        ...stock.map(({ id, male }) => ({ id, male })),
        { id: await records.fish(`S-${locusId}-1`, 'MALE', of), male: true },
        { id: await records.fish(`S-${locusId}-2`, 'FEMALE', of), male: false },
      ];
      const genotypes = new Map<string, string>();
      for (const { id } of all) {
        const text = pick(living);
        genotypes.set(id, text);
        await api.graphql(GENOTYPE, { input: { fishId: id, locusId, genotype: text, basis: 'LABORATORY' } });
      }
      const ids = (male: boolean) => all.filter((one) => one.male === male).map((one) => one.id);
      const [, second = ''] = OWN[locusId]?.looks ?? [];
      const { pairingCandidates } = await api.graphql<{
        pairingCandidates: { edges: { node: { sire: { id: string }; dam: { id: string }; reasons: { code: string; figure: number | null }[]; classes: Class[] } }[] };
      }>(CANDIDATES, { input: { sireIds: ids(true), damIds: ids(false), includeDiscouraged: true, wantClasses: [`${locusId}:${second}`] } });
      expect(pairingCandidates.edges).toHaveLength(16);
      for (const { node } of pairingCandidates.edges) {
        const shown = unions(locusId, genotypes.get(node.sire.id) ?? '', genotypes.get(node.dam.id) ?? '');
        const share = shown[1] / (shown[0] + shown[1]);
        expect(node.reasons.find((one) => one.code === 'WANTED_CLASS')?.figure).toBeCloseTo(share, 9);
        const found = node.classes.filter((one) => one.parts.some((part) => part.locusIds[0] === locusId && part.phenotype === second));
        expect(found.reduce((sum, one) => sum + one.probability, 0)).toBeCloseTo(share, 9);
      }
    });

    it('a sire of which only the look is known: the mean over what it may be, of those that live', async () => {
      const [grandsire, granddam] = [await known('MALE', 'veil', 'V/v'), await known('FEMALE', 'veil', 'V/v')];
      const [young] = await records.young(await records.spawn('O26-01', grandsire, granddam), 1);
      await records.seen(young?.id ?? '', 'veil', 'plain');
      const partner = await known('FEMALE', 'veil', 'V/v');
      const readAs = (look: 'plain' | 'veiled', [plain, veiled]: readonly [number, number]) =>
        ((look === 'plain' ? plain : veiled) * 0.99 + (look === 'plain' ? veiled : plain) * 0.01) / (plain + veiled);
      const holds = async (weights: number[]) => {
        const total = weights.reduce((a, b) => a + b, 0);
        const found = await outlook(young?.id ?? '', partner, 'veil');
        const expected = { veiled: 0, lost: 0 };
        ['V/V', 'V/v'].forEach((text, at) => {
          const weight = (weights[at] ?? NaN) / total;
          const [plain, veiled] = unions('veil', text, 'V/v');
          expected.veiled += (weight * veiled) / (plain + veiled);
          expected.lost += weight * (1 - (plain + veiled) / 60);
          expect(found?.pairs.find((one) => one.sire === text)?.probability).toBeCloseTo(weight, 9);
        });
        expect(found?.pairs).toHaveLength(2);
        expect(found?.classes.find((one) => one.phenotype === 'veiled')?.probability).toBeCloseTo(expected.veiled, 9);
        expect(found?.lostShare).toBeCloseTo(expected.lost, 9);
      };
      // V/V and V/v come 1 : 2 and v/v dies; each look is read rightly 99 times in 100; one in five of V/v is plain.
      const weights = [readAs('plain', [1, 0]), 2 * readAs('plain', [1, 4])];
      await holds(weights);
      // A young of his that lived long enough to be seen tells of him by the shares of the living young of each pair.
      const mate = await known('FEMALE', 'veil', 'V/v');
      const [grandchild] = await records.young(await records.spawn('O26-02', young?.id ?? '', mate), 1);
      await records.seen(grandchild?.id ?? '', 'veil', 'plain');
      await holds(['V/V', 'V/v'].map((text, at) => (weights[at] ?? NaN) * readAs('plain', unions('veil', text, 'V/v'))));
    });

    it('a cross at both: every class and the eggs lost, as exact fractions', async () => {
      const [sire, dam] = [{ veil: 'V/v', frost: 'F/f' }, { veil: 'V/v', frost: 'f/f' }];
      const set = (of: Set) => Object.entries(of).map(([locusId, text]) => ({ locusId, genotype: text }));
      const { cross } = await api.graphql<{ cross: { classes: Class[]; lostFraction: string | null } }>(CROSS, {
        input: { sire: set(sire), dam: set(dam) },
      });
      const [veil, frost] = [unions('veil', sire.veil, dam.veil), unions('frost', sire.frost, dam.frost)];
      const living = (veil[0] + veil[1]) * (frost[0] + frost[1]);
      const expected = veil.flatMap((v, i) =>
        frost.map((f, j) => [`${OWN['veil']?.looks[i] ?? ''} ${OWN['frost']?.looks[j] ?? ''}`, reduced(v * f, living)]),
      );
      const look = (one: Class, id: string) => one.parts.find((part) => part.locusIds[0] === id)?.phenotype ?? '';
      expect(cross.classes.map((one) => [`${look(one, 'veil')} ${look(one, 'frost')}`, one.fraction]).toSorted()).toEqual(
        expected.toSorted(),
      );
      expect(cross.lostFraction).toBe(reduced(3600 - living, 3600));
      for (const one of cross.classes) expect(one.fryForOne95).toBe(fryFor(one.probability));
    });
  }); // prettier-ignore
});
