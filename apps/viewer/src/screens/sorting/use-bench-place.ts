import { useCallback, useEffect, useState } from 'react';
import { keepPlaces, keptPlaces } from '../../outbox/kept-places.js';
import { useSession } from '../../session/session-context.js';
import { blank, nowhere, placeIn, placeText, type BenchPlace, type Filled } from './bench-place.js';

export interface BenchPlaceKept extends BenchPlace {
  readonly filledOf: (fishId: string) => Filled;
  readonly goTo: (fishId: string) => void;
  readonly fill: (fishId: string, change: (before: Filled) => Filled) => void;
  readonly choose: (day: string | null) => void;
}

/** Where the person is at this spawn's bench; there again after a reload, a closed browser, a look at another page. */
export function useBenchPlace(spawnId: string): BenchPlaceKept {
  const personId = useSession().person?.id ?? '';
  const [place, setPlace] = useState<BenchPlace>(
    () =>
      keptPlaces(personId)
        .map((text) => placeIn(text, spawnId))
        .find((each) => each !== null) ?? nowhere,
  );
  useEffect(() => {
    if (place !== nowhere) keepPlaces(personId, (before) => placeText(before, spawnId, place));
  }, [personId, spawnId, place]);
  const goTo = useCallback(
    (fishId: string) =>
      setPlace((before) => (before.fishId === fishId ? before : { ...before, fishId })),
    [],
  );
  const fill = useCallback(
    (fishId: string, change: (before: Filled) => Filled) =>
      setPlace((before) => ({
        ...before,
        fishId: before.fishId ?? fishId,
        drafts: new Map(before.drafts).set(fishId, change(before.drafts.get(fishId) ?? blank)),
      })),
    [],
  );
  const choose = useCallback(
    (day: string | null) => setPlace((before) => ({ ...before, day })),
    [],
  );
  return {
    ...place,
    filledOf: (fishId) => place.drafts.get(fishId) ?? blank,
    ...{ goTo, fill, choose },
  };
}
