import { Link } from 'react-router';
import type { Candidate } from '../../api/pairing-candidates.js';
import { WorthParts } from '../../components/pair-worth.js';
import { pairKey, pairWords } from './candidate-words.js';
import { CrossClasses } from '../../components/cross-classes.js';
import {
  MainAncestors,
  ReasonList,
  TraitMeanTable,
  WarningList,
} from '../../components/pair-judgement.js';

/** Everything that stands behind one row. */
interface CandidateExplanationProps {
  candidate: Candidate;
  /** Whether anybody said what the line is for. */
  asked: boolean;
  /** The pair that this one is held against; null for the best itself. */
  best: Candidate | null;
  pairQuery: string;
}

export function CandidateExplanation(props: CandidateExplanationProps) {
  const { candidate, asked, best, pairQuery } = props;
  const { sire, dam, reasons, warnings, classes, traitMeans, mainAncestors } = candidate;
  return (
    <div className="lw-two-up">
      <div>
        {asked && (
          <>
            <h3>Worth</h3>
            <WorthParts worth={candidate.worth} />
          </>
        )}
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
        {best !== null && pairKey(best) !== pairKey(candidate) && (
          <p>
            <Link
              to={`/pair/${sire.id}/${dam.id}?${pairQuery}&with=${best.sire.id},${best.dam.id}`}
            >
              Hold it against {pairWords(best)}
            </Link>
          </p>
        )}
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
