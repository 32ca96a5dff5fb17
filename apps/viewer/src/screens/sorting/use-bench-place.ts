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

/** The place at a spawn's bench, kept on the device as it changes. */
function useKeptPlace(spawnId: string) {
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
  return [place, setPlace] as const;
}

/** Where the person is at this spawn's bench; there again after a reload, a closed browser, a look at another page. */
export function useBenchPlace(spawnId: string): BenchPlaceKept {
  const [place, setPlace] = useKeptPlace(spawnId);
  const goTo = useCallback(
    (fishId: string) =>
      setPlace((before) => (before.fishId === fishId ? before : { ...before, fishId })),
    [setPlace],
  );
  const fill = useCallback(
    (fishId: string, change: (before: Filled) => Filled) =>
      setPlace((before) => ({
        ...before,
        fishId: before.fishId ?? fishId,
        drafts: new Map(before.drafts).set(fishId, change(before.drafts.get(fishId) ?? blank)),
      })),
    [setPlace],
  );
  const choose = useCallback(
    (day: string | null) => setPlace((before) => ({ ...before, day })),
    [setPlace],
  );
  return {
    ...place,
    filledOf: (fishId) => place.drafts.get(fishId) ?? blank,
    ...{ goTo, fill, choose },
  };
}
