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
  recordGenotype: 'RecordGenotypeInput',
  recordPhenotype: 'RecordPhenotypeInput',
  defineLocus: 'DefineLocusInput',
} as const;

/** Of those that make several at once. */
const inputsOfSeveral = {
  addFishToSpawn: 'AddFishToSpawnInput',
  recordScores: 'RecordScoresInput',
} as const;

type Inputs = typeof inputs;
type InputsOfSeveral = typeof inputsOfSeveral;
type Input<Name extends string> = ReturnType<typeof graphql.scalar<Name>>;

/** Posts operations that must succeed, as whoever is signed in there. */
export interface Sender {
  graphql<Data>(query: string, variables: object): Promise<Data>;
}

export type NewRecords = {
  readonly [Mutation in keyof Inputs]: (input: Input<Inputs[Mutation]>) => Promise<string>;
} & {
  readonly [Mutation in keyof InputsOfSeveral]: (
    input: Input<InputsOfSeveral[Mutation]>,
  ) => Promise<string[]>;
};

/** Makes records through the API, with inputs as the schema types them; each answers the id of the new one, or of the new ones. */
export const newRecords = (sender: Sender): NewRecords => {
  const sent = async <Made>(mutation: string, type: string, input: object): Promise<Made> => {
    const made = await sender.graphql<Record<string, Made>>(
      `mutation ($input: ${type}!) { ${mutation}(input: $input) { id } }`,
      { input },
    );
    return made[mutation]!;
  };
  const one = Object.entries(inputs).map(([mutation, type]) => [
    mutation,
    async (input: object) => (await sent<{ id: string }>(mutation, type, input)).id,
  ]);
  const several = Object.entries(inputsOfSeveral).map(([mutation, type]) => [
    mutation,
    async (input: object) =>
      (await sent<{ id: string }[]>(mutation, type, input)).map(({ id }) => id),
  ]);
  return Object.fromEntries([...one, ...several]) as NewRecords;
};
