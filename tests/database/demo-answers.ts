interface Answered {
  readonly traitMerit: { readonly waiting: object | null };
}

/**
 * Asks for the breeding values of every trait until they are there: they belong to the state of the records and are stored beside them,
 * so whoever opens a copy of the database finds them.
 */
export const workOutAnswers = async (
  ask: <Data>(query: string) => Promise<Data>,
): Promise<void> => {
  const { traits } = await ask<{ traits: readonly { id: string }[] }>('{ traits { id } }');
  const isThere = async (id: string): Promise<boolean> =>
    (await ask<Answered>(`{ traitMerit(traitId: "${id}") { waiting { id } } }`)).traitMerit
      .waiting === null;
  for (const { id } of traits)
    while (!(await isThere(id))) await new Promise((resolve) => setTimeout(resolve, 200));
};
