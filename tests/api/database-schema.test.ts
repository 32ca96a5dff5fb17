import { DataSource } from 'typeorm';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { recordsOf, type RunningApi, startApi } from './harness.js';

describe('the migrated database', () => {
  let api: RunningApi;
  beforeAll(async () => {
    api = await startApi({ signedIn: false });
  });
  afterAll(() => api.close());

  it('is what the entities say: a generated migration would be empty', async () => {
    const dataSource = await recordsOf(api);
    const { upQueries } = await dataSource.driver.createSchemaBuilder().log();
    expect(upQueries.map((query) => query.query)).toEqual([]);
  });

  it('is injected by type, so decorator metadata is emitted', async () => {
    const { FishService } = await import('../../apps/api/src/fish/fish.service.js');
    const parameters = Reflect.getMetadata('design:paramtypes', FishService) as unknown[];
    expect(parameters).toHaveLength(3);
    expect(parameters[0]).toBe(DataSource);
  });
});
