import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { dailyPlaces, everyPlaceFor, groupAt, placeGroups, placesFor } from './navigation.js';

const routes = readFileSync(new URL('routes.tsx', import.meta.url), 'utf8');
/** Screens that stand by themselves: a record's page is reached from its list. */
const screens = [...routes.matchAll(/at\('([a-z-]+)'/g)].map(([, path]) => `/${path}`);
/** Reached from what they serve, and by the search. */
const fromOthers = ['/fish-acts', '/pair', '/start', '/founders'];

describe('the menu', () => {
  const listed = [...dailyPlaces, ...placeGroups.flatMap(({ places }) => places)].map(
    ({ to }) => to,
  );

  it('shows five places of every day, and opens the rest in a few groups', () => {
    expect(dailyPlaces).toHaveLength(5);
    expect(placeGroups.length).toBeLessThanOrEqual(5);
  });

  it('leads to every screen that no other one leads to, once', () => {
    expect([...listed, ...fromOthers].toSorted()).toEqual(screens.toSorted());
  });

  it('keeps what a partner finds nothing in out of theirs, and no group without a place', () => {
    const ofPartner = placesFor(false, false).flatMap(({ places }) => places.map(({ to }) => to));
    expect(ofPartner).not.toContain('/import');
    expect(
      placesFor(true, false).flatMap(({ places }) => places.map(({ to }) => to)),
    ).not.toContain('/sharing');
    expect(placesFor(false, false).every(({ places }) => places.length > 0)).toBe(true);
  });

  it('leaves no page to be found by nobody: the search knows them all', () => {
    const found = everyPlaceFor(true, true).map(({ to }) => to);
    expect(found.toSorted()).toEqual(screens.toSorted());
    expect(everyPlaceFor(false, false).map(({ to }) => to)).not.toContain('/founders');
  });

  it('knows in which group an address is, a record below a list too', () => {
    expect(groupAt(placeGroups, '/traits/1')).toBe('Scoring and care');
    expect(groupAt(placeGroups, '/fish/1')).toBeNull();
    // No address begins another by chance.
    expect(groupAt(placeGroups, '/importance')).toBeNull();
  });
});
