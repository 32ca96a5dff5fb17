import type { NamedFish } from '../../api/named-fish.js';
import { FishLink } from '../../components/fish-marks.js';

/** A founder, or the unknown parent of a half-known fish. */
export function SourceLink({ fish, unknownParent }: { fish: NamedFish; unknownParent: boolean }) {
  return unknownParent ? (
    <>
      unknown parent of <FishLink fish={fish} />
    </>
  ) : (
    <FishLink fish={fish} />
  );
}
