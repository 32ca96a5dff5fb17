import { Link } from 'react-router';
import type { Candidate } from '../../api/pairing-candidates.js';
import { CrossClasses } from '../../components/cross-classes.js';
import {
  MainAncestors,
  ReasonList,
  TraitMeanTable,
  WarningList,
} from '../../components/pair-judgement.js';

/** Everything that stands behind one row. */
export function CandidateExplanation(props: { candidate: Candidate; pairQuery: string }) {
  const { candidate, pairQuery } = props;
  const { sire, dam, reasons, warnings, classes, traitMeans, mainAncestors } = candidate;
  return (
    <div className="lw-two-up">
      <div>
        <h3>Reasons</h3>
        <ReasonList reasons={reasons} />
        <h3>Warnings</h3>
        <WarningList warnings={warnings} />
        <MainAncestors ancestors={mainAncestors} />
        <p>
          <Link to={`/pair/${sire.id}/${dam.id}?${pairQuery}`}>
            Open {sire.tag} by {dam.tag}: paths, pedigree and brood
          </Link>
        </p>
      </div>
      <div>
        <h3>Expected classes</h3>
        <CrossClasses
          cross={{ locusIds: [], lostFraction: null, assumed: [], notComputed: [], classes }}
        />
        <h3>Parents’ means</h3>
        <TraitMeanTable means={traitMeans} />
      </div>
    </div>
  );
}
