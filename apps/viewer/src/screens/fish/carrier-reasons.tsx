import { Link } from 'react-router';
import { CARRIER_REASONS, type CarrierLocus, type CarrierReasons } from '../../api/carriers.js';
import { useRead } from '../../api/use-read.js';
import { GenotypeChances } from '../../components/genotype-chances.js';
import { Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { withoutTag } from '../../wording/chances.js';
import { plural } from '../../wording/figures.js';

/** The records that moved what is thought of a fish, each with what would be thought without it. */
export function CarrierReasonsList({ fishId, locus }: { fishId: string; locus: CarrierLocus }) {
  const read = useRead(CARRIER_REASONS, { fishId, locusId: locus.locusId });
  return (
    <Shown read={read} what="the reasons">
      {({ carrierReasons }) => (
        <>
          {carrierReasons.waiting !== null && (
            <WaitingComputation
              computation={carrierReasons.waiting}
              what="the reasons"
              onDone={read.reload}
            />
          )}
          <Reasons found={carrierReasons} />
          <p className="lw-quiet">{locus.method}</p>
        </>
      )}
    </Shown>
  );
}

const triedWords = ({ tried, nearCount }: CarrierReasons): string =>
  tried < nearCount
    ? `${tried} nearest of ${nearCount} records of relatives`
    : plural(tried, 'nearest record');

function Reasons({ found }: { found: CarrierReasons }) {
  return (
    <>
      {found.beforeRecords.length > 0 && (
        <>
          <p>Before any record is used:</p>
          <GenotypeChances chances={found.beforeRecords} />
        </>
      )}
      {found.reasons.length === 0 ? (
        <p>
          {found.tried === 0
            ? 'No record of a near relative says anything about it.'
            : `None of the ${triedWords(found)} changes it alone: several say the same, or none says anything.`}
        </p>
      ) : (
        <>
          <p>
            Records that change it, strongest first (of the {triedWords(found)}, each tested by
            removing it):
          </p>
          <ReasonList found={found} />
        </>
      )}
      {found.setAside.length > 0 && <SetAside found={found} />}
      <details className="lw-folded">
        <summary>Assumptions</summary>
        <ul>
          {found.assumed.map((text) => (
            <li key={text}>{text}</li>
          ))}
          <li>Founders are taken as unrelated, and parentage as recorded.</li>
        </ul>
        <Link to="/loci">Change it under Loci</Link>
      </details>
    </>
  );
}

function ReasonList({ found }: { found: CarrierReasons }) {
  return (
    <ol className="lw-spaced">
      {found.reasons.map((one) => (
        <li key={one.recordId}>
          <strong>{one.relation}</strong>:{' '}
          {one.spawn !== null && <Link to={`/spawns/${one.spawn.id}`}>{one.spawn.tag}</Link>}
          {one.fish !== null && <Link to={`/fish/${one.fish.id}`}>{one.fish.tag}</Link>}{' '}
          {withoutTag(one.text, one.fish?.tag ?? one.spawn?.tag ?? '')}
          <span className="lw-small">
            If removed <GenotypeChances chances={one.without} />
          </span>
        </li>
      ))}
    </ol>
  );
}

function SetAside({ found }: { found: CarrierReasons }) {
  return (
    <details className="lw-folded">
      <summary>{plural(found.setAside.length, 'record')} not counted</summary>
      <ul>
        {found.setAside.map((one) => (
          <li key={`${one.recordId} ${one.why}`}>{one.why}</li>
        ))}
      </ul>
    </details>
  );
}
