import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RunningApi, startApi, recordsOf } from './harness.js';
import { creation } from '../new-records.js';

/** What an older program or a file may have left behind, put in past all checks. */
describe('records that cannot be read any more', () => {
  let api: RunningApi;
  const sql = async (text: string, values: unknown[] = []): Promise<unknown> =>
    (await recordsOf(api)).query(text, values);
  beforeAll(async () => {
    api = await startApi({ demo: true });
  });
  afterAll(() => api.close());

  it('a locus with one wrong part is listed with the reason, can be withdrawn, and the rest works', async () => {
    const look = (genotype: string) => ({ genotype, phenotype: `look of ${genotype}` });
    const { defineLocus } = await api.graphql<{ defineLocus: { recordId: string } }>(
      creation('defineLocus', 'recordId'),
      {
        input: {
          ...{ locusId: 'spot', name: 'Spot', looks: ['S/S', 'S/s', 's/s'].map(look) },
          alleles: [
            { symbol: 'S', name: 'spot' },
            { symbol: 's', name: 'plain' },
          ],
        },
      },
    );
    for (const table of ['own_locus', 'own_locus_version'])
      await sql(`UPDATE ${table} SET definition = jsonb_set(definition, '{hiddenBy}', '7')`);
    const { loci } = await api.graphql<{
      loci: { id: string; name: string; computable: boolean; whyNotComputable: string | null }[];
    }>('{ loci { id name computable whyNotComputable alleles { id } phenotypes { genotype } } }');
    const spoilt = loci.find(({ id }) => id === 'spot');
    expect(spoilt).toMatchObject({ name: 'Spot', computable: false });
    expect(spoilt?.whyNotComputable).toContain('hiddenBy');
    expect(loci.filter(({ computable }) => computable).length).toBeGreaterThan(5);
    const cross = `{ cross(input: {sire: [{locusId: "c", genotype: "C/c"}], dam: [{locusId: "c", genotype: "C/c"}]}) { classes { phenotype } } }`;
    expect(
      (await api.graphql<{ cross: { classes: unknown[] } }>(cross)).cross.classes,
    ).toHaveLength(2);
    await api.graphql('{ locusVersions(locusId: "spot") { version } }');
    await api.graphql('mutation ($input: WithdrawInput!) { withdrawLocus(input: $input) { id } }', {
      input: { id: defineLocus.recordId, reason: 'spoilt' },
    });
  });

  it.each([
    ['trait_definition', 'grades', '{ traits { id grades { name } } }'],
    ['score_sheet_version', 'lines', '{ scoreSheets { id name versions { lines { weight } } } }'],
    ['score_sheet_version', 'faults', '{ scoreSheets { id versions { faults { name } } } }'],
    [
      'score_sheet_version',
      'deductions',
      '{ scoreSheets { id versions { deductions { points } } } }',
    ],
    ['locus_setting', 'frequencies', '{ locusSettings { id frequencies { frequency } } }'],
    [
      'sheet_scoring',
      'fault_ids',
      '{ fishList(first: 50) { edges { node { sheetScorings { id faults { name } } } } } }',
    ],
  ])('%s with a wrong "%s" leaves its list readable', async (table, column, query) => {
    for (const wrong of ['7', '"x"', '[7]', '{"x": []}']) {
      await sql(`UPDATE ${table} SET ${column} = $1::jsonb`, [wrong]);
      expect(await api.send(query), wrong).not.toHaveProperty('errors');
    }
  });
});
