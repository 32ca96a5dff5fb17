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

/** Mutations that make records, and have builders here. */
export const creations = { ...inputs, ...inputsOfSeveral };

/** The text of a mutation that makes records, for a test that reads more of its answer than the id, or sees it refused. */
export const creation = (mutation: keyof typeof creations, answer = 'id'): string =>
  `mutation ($input: ${creations[mutation]}!) { ${mutation}(input: $input) { ${answer} } }`;

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

const namesOf = <Of extends object>(some: Of) => Object.keys(some) as (keyof Of)[];

/** Makes records through the API, with inputs as the schema types them; each answers the id of the new one, or of the new ones. */
export const newRecords = (sender: Sender): NewRecords => {
  const sent = async <Made>(mutation: keyof typeof creations, input: object): Promise<Made> => {
    const made = await sender.graphql<Record<string, Made>>(creation(mutation), { input });
    return made[mutation]!;
  };
  const one = namesOf(inputs).map((mutation) => [
    mutation,
    async (input: object) => (await sent<{ id: string }>(mutation, input)).id,
  ]);
  const several = namesOf(inputsOfSeveral).map((mutation) => [
    mutation,
    async (input: object) => (await sent<{ id: string }[]>(mutation, input)).map(({ id }) => id),
  ]);
  return Object.fromEntries([...one, ...several]) as NewRecords;
};
