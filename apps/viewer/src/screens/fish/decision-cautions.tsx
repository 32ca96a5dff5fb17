import { Link } from 'react-router';
import { Caution } from '../../components/notice.js';

/** Shown wherever a cull is recorded. */
export function CullCaution() {
  return (
    <Caution>
      Placing a sound fish as a pet, or keeping it apart, is also a cull from the line. Where a fish
      must be killed, ask a vet how it is done humanely and what your local law asks; wear gloves
      with a sick one. Never release a fish, and never keep two fighting fish in one jar.{' '}
      <Link to="/cautions">All cautions</Link>
    </Caution>
  );
}

/** Shown wherever it is recorded that fish go to somebody else. */
export function PlacingCaution() {
  return (
    <Caution>
      The law of your place says who may sell fish, give them away or send them, and how: ask your
      authority first. Never release a fish, and tell the new owner that fighting fish have to be
      kept apart. <Link to="/cautions">All cautions</Link>
    </Caution>
  );
}
