import { Link } from 'react-router';
import { OUTCROSS_CAUTIONS } from '@linewright/mating';

/** What holds for every outcross, told once on a page. */
export function OutcrossCautions() {
  return (
    <>
      <ul className="lw-words">
        {OUTCROSS_CAUTIONS.map(({ code, text, basis }) => (
          <li key={code}>
            {text} <span className="lw-small">Basis: {basis}</span>
          </li>
        ))}
      </ul>
      <p className="lw-quiet">
        More on quarantine and on infections that people catch: <Link to="/cautions">Cautions</Link>
        .
      </p>
    </>
  );
}
