import { Link } from 'react-router';
import { ROUNDS_OF_LINE } from '../../api/round-course.js';
import { useRead } from '../../api/use-read.js';
import { plural } from '../../wording/figures.js';

/** Says that a round of the line is planned already and has pairs that have not spawned. */
export function StandingRound({ lineId }: { lineId: string }) {
  const read = useRead(ROUNDS_OF_LINE, { lineId, after: null });
  const standing = (read.data?.rounds.edges ?? []).flatMap(({ node }) => {
    const waiting = node.pairs.filter(({ pairing }) => pairing.state === 'PLANNED').length;
    return waiting > 0 ? [{ ...node, waiting }] : [];
  });
  const [newest] = standing;
  if (newest === undefined) return null;
  return (
    <p className="lw-words" role="note">
      A round of {newest.plannedOn} is planned:{' '}
      <Link to={`/rounds/${newest.id}`}>
        {plural(newest.waiting, 'pair')} of it {newest.waiting === 1 ? 'waits' : 'wait'} for a spawn
      </Link>
      . The pairs below are chosen as if it were not there.
    </p>
  );
}
