import { Link } from 'react-router';
import type { StandingPairs } from '../../api/rounds.js';
import { plural } from '../../wording/figures.js';
import { standingWords } from './proposal-words.js';

interface StandingRoundProps {
  standing: StandingPairs;
  /** Broods that there is room for beside them. */
  left: number;
}

/** Says which pairs are planned already, where their rounds are found, and how many more there is room for. */
export function StandingRound({ standing, left }: StandingRoundProps) {
  const { rounds, byHandCount } = standing;
  return (
    <p className="lw-words" role="note">
      {standingWords(standing)}{' '}
      {rounds.map(({ id, plannedOn }, k) => (
        <span key={id}>
          {k > 0 && ', '}
          <Link to={`/rounds/${id}`}>Round of {plannedOn}</Link>
        </span>
      ))}
      {rounds.length > 0 && '. '}
      {byHandCount > 0 && (
        <>
          {plural(byHandCount, 'is', 'are')} <Link to="/planned">planned by hand</Link>, not as a
          round.{' '}
        </>
      )}
      {left === 0
        ? 'Record their spawns, take a round back or drop a plan, and further pairs are proposed here.'
        : 'The pairs below come beside them: what they use of fish, tanks and kinship is taken off.'}
    </p>
  );
}
