import { Link } from 'react-router';
import type { Candidate } from '../../api/pairing-candidates.js';
import { CrossClasses } from '../../components/cross-classes.js';
import { DataTable } from '../../components/data-table.js';
import { FishLink } from '../../components/fish-marks.js';
import { ReasonList, TraitMeanTable, WarningList } from '../../components/pair-judgement.js';
import { percent } from '../../wording/figures.js';

/** Everything that stands behind one row. */
export function CandidateExplanation({ candidate }: { candidate: Candidate }) {
  const { sire, dam, reasons, warnings, classes, traitMeans, mainAncestors } = candidate;
  return (
    <div className="lw-two-up">
      <div>
        <h3>Reasons</h3>
        <ReasonList reasons={reasons} />
        <h3>Warnings</h3>
        <WarningList warnings={warnings} />
        {mainAncestors.length > 0 && (
          <>
            <h3>Main common ancestors</h3>
            <DataTable
              caption="Main common ancestors"
              rows={mainAncestors}
              rowKey={({ ancestor }) => ancestor.id}
              columns={[
                {
                  key: 'ancestor',
                  title: 'Ancestor',
                  cell: ({ ancestor }) => <FishLink fish={ancestor} />,
                },
                {
                  key: 'paths',
                  title: 'Paths',
                  number: true,
                  cell: ({ pathCount }) => pathCount ?? 'beyond counting',
                },
                {
                  key: 'adds',
                  title: 'Adds to F',
                  number: true,
                  cell: ({ contribution }) => percent(contribution, 3),
                },
              ]}
            />
          </>
        )}
        <p>
          <Link to={`/pair/${sire.id}/${dam.id}`}>
            Look at {sire.tag} by {dam.tag}: paths, pedigree and brood
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
