import { Link } from 'react-router';
import { PAIRS_TO_MAKE } from '../../api/pairings.js';
import { useRead } from '../../api/use-read.js';
import { FishLink } from '../../components/fish-marks.js';
import { Section } from '../../components/section.js';

/** Planned pairs that whoever is signed in makes; nothing is drawn where there is none. */
export function PairsToMake() {
  const pairs = useRead(PAIRS_TO_MAKE, {}).data?.pairings ?? [];
  if (pairs.length === 0) return null;
  return (
    <Section title="Pairs for you to make" aside={pairs.length}>
      <ul className="lw-judged">
        {pairs.map(({ id, plannedOn, sire, dam }) => (
          <li key={id}>
            <FishLink fish={sire} /> × <FishLink fish={dam} />{' '}
            <span className="lw-quiet">planned for {plannedOn}</span>
          </li>
        ))}
      </ul>
      <p>
        <Link to="/planned">Record a spawn under planned pairings</Link>
      </p>
    </Section>
  );
}
