import { creation, newRecords } from '../new-records.js';
import type { RunningApi } from './harness.js';

/** Short ways to make the records that the tests of carrier probabilities stand on. */
export interface Records {
  line(code: string): Promise<string>;
  fish(tag: string, sex: 'MALE' | 'FEMALE', more?: object): Promise<string>;
  spawn(tag: string, sireId: string, damId: string, more?: object): Promise<string>;
  young(spawnId: string, number: number): Promise<{ id: string; tag: string }[]>;
  seen(fishId: string, locusId: string, phenotype: string, more?: object): Promise<string>;
  counted(spawnId: string, locusId: string, counts: Record<string, number>): Promise<void>;
  setting(input: object): Promise<void>;
  chances(fishId: string, locusId: string): Promise<Record<string, number>>;
}

export const recordsOn = (api: RunningApi): Records => {
  const made = async (name: string, type: string, input: object): Promise<string> => {
    const data = await api.graphql<Record<string, { id: string }>>(
      `mutation ($input: ${type}!) { ${name}(input: $input) { id } }`,
      { input },
    );
    return data[name]?.id ?? '';
  };
  const records = newRecords(api);
  return {
    line: (code) => records.createLine({ code, name: code }),
    fish: (tag, sex, more = {}) => records.createFish({ tag, sex, ...more }),
    spawn: (tag, sireId, damId, more = {}) => records.createSpawn({ tag, sireId, damId, ...more }),
    young: async (spawnId, number) => {
      const { addFishToSpawn } = await api.graphql<{
        addFishToSpawn: { id: string; tag: string }[];
      }>(creation('addFishToSpawn', 'id tag'), {
        input: { spawnId, number },
      });
      return addFishToSpawn;
    },
    seen: (fishId, locusId, phenotype, more = {}) =>
      made('recordPhenotype', 'RecordPhenotypeInput', {
        fishId,
        locusId,
        phenotype,
        seenOn: '2026-05-01',
        ...more,
      }),
    counted: async (spawnId, locusId, counts) => {
      for (const [phenotype, number] of Object.entries(counts)) {
        await made('recordClassCount', 'ClassCountInput', {
          spawnId,
          locusIds: [locusId],
          phenotype,
          number,
          countedOn: '2026-05-01',
        });
      }
    },
    setting: async (input) => {
      await made('setLocusSetting', 'SetLocusSettingInput', input);
    },
    chances: async (fishId, locusId) => {
      const { fishCarriers } = await api.graphql<{
        fishCarriers: {
          loci: { locusId: string; genotypes: { genotype: string; probability: number }[] }[];
        };
      }>(
        `query ($fishId: ID!) { fishCarriers(fishId: $fishId) {
           loci { locusId genotypes { genotype probability } } } }`,
        { fishId },
      );
      const locus = fishCarriers.loci.find((one) => one.locusId === locusId);
      return Object.fromEntries(
        (locus?.genotypes ?? []).map((one) => [one.genotype, one.probability]),
      );
    },
  };
};
