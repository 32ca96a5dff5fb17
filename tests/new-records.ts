import type { graphql } from '../apps/viewer/src/api/graphql.js';

/** Input types of the mutations that make one record and answer its id. */
const inputs = {
  createLine: 'CreateLineInput',
  createFish: 'CreateFishInput',
  createSpawn: 'CreateSpawnInput',
  createTrait: 'CreateTraitInput',
  createScoreSheet: 'CreateScoreSheetInput',
  recordSpawnCount: 'SpawnCountInput',
  recordSpawnLoss: 'SpawnLossInput',
  recordSpawnEvent: 'SpawnEventInput',
  planPairing: 'PlanPairingInput',
} as const;

type Inputs = typeof inputs;
type Input<Name extends string> = ReturnType<typeof graphql.scalar<Name>>;

/** Posts operations that must succeed, as whoever is signed in there. */
export interface Sender {
  graphql<Data>(query: string, variables: object): Promise<Data>;
}

export type NewRecords = {
  readonly [Mutation in keyof Inputs]: (input: Input<Inputs[Mutation]>) => Promise<string>;
} & {
  /** Jars so many fish of a brood. */
  readonly addFishToSpawn: (input: Input<'AddFishToSpawnInput'>) => Promise<void>;
};

/** Makes records through the API, with inputs as the schema types them; each answers the id of the new one. */
export const newRecords = (sender: Sender): NewRecords => {
  const making = Object.entries(inputs).map(([mutation, type]) => [
    mutation,
    async (input: object): Promise<string> => {
      const made = await sender.graphql<Record<string, { id: string }>>(
        `mutation ($input: ${type}!) { ${mutation}(input: $input) { id } }`,
        { input },
      );
      return made[mutation]?.id ?? '';
    },
  ]);
  return {
    ...(Object.fromEntries(making) as Omit<NewRecords, 'addFishToSpawn'>),
    addFishToSpawn: async (input) => {
      await sender.graphql(
        'mutation ($input: AddFishToSpawnInput!) { addFishToSpawn(input: $input) { id } }',
        { input },
      );
    },
  };
};
