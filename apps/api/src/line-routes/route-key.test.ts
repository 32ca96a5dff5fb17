import { siblingRoute } from '@linewright/mating';
import { GraphQLString } from 'graphql';
import { describe, expect, it } from 'vitest';
import { limitOf } from '../graphql/input-limits.js';
import { routeKey } from './line-routes.mapper.js';

describe('the key of a route', () => {
  it('may be given when the route is adopted, whatever fish it names', () => {
    const route = {
      ...siblingRoute(0, 1, { generations: 3, parentGenerations: 1 }),
      fish: [0, 1, 2, 3],
    };
    const key = routeKey(route, (at) => `413d2400-63e2-80f6-80c3-a01c1c40550${at}`);
    const { characters } = limitOf('AdoptRouteInput.key', GraphQLString);
    expect(key.length).toBeGreaterThan(150);
    expect(key.length).toBeLessThanOrEqual(characters!);
  });
});
