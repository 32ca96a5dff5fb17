import { Link } from 'react-router';
import { CONTRADICTIONS, type Contradiction } from '../../api/carriers.js';
import { useRead } from '../../api/use-read.js';
import { FishLink } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { withoutTag } from '../../wording/chances.js';
import { plural } from '../../wording/figures.js';

/** Records that cannot all be true, the fewest that clash, with what would settle it. */
export function ContradictionsScreen() {
  const read = useRead(CONTRADICTIONS, { fishId: null, spawnId: null });
  return (
    <Screen
      title="Contradictions"
      lead="Records that cannot all be true if every appearance was read correctly and every parentage is right."
      actions={<Link to="/loci">Loci</Link>}
    >
      <Shown read={read} what="the contradictions">
        {({ contradictions }) => (
          <>
            {contradictions.waiting.map((one) => (
              <WaitingComputation
                key={one.id}
                computation={one}
                what="the contradictions of a locus"
                onDone={read.reload}
              />
            ))}
            {contradictions.found.length === 0 && contradictions.waiting.length === 0 && (
              <Empty>
                None: the records of {plural(contradictions.lociLookedAt, 'locus', 'loci')} can all
                be true.
              </Empty>
            )}
            {contradictions.moreAt.length > 0 && (
              <p role="note">
                At {contradictions.moreAt.join(', ')} there may be more than are listed: six are
                searched for at a time. Correct these, then look here again.
              </p>
            )}
            {contradictions.found.map((one) => (
              <Clash key={one.locusId + one.records.map((r) => r.recordId).join()} clash={one} />
            ))}
          </>
        )}
      </Shown>
    </Screen>
  );
}

function Clash({ clash }: { clash: Contradiction }) {
  return (
    <article className="lw-divided" aria-label={`Contradiction at ${clash.name}`}>
      <h2>{clash.name}</h2>
      <p>
        {clash.records.length === 1
          ? 'This record cannot be true of the locus:'
          : clash.records.length === 2
            ? 'These 2 records cannot both be true; without either the other can be:'
            : `These ${clash.records.length} records cannot all be true; without any one of them the rest can be:`}
      </p>
      <ClashingRecords clash={clash} />
      <DoubtfulParentages clash={clash} />
      {clash.restsOnFounders && (
        <p>
          The settings for founders matter too: an allele is set to a frequency of 0 there, so none
          of their young can have it. Look at the frequencies under <Link to="/loci">Loci</Link>.
        </p>
      )}
      {!clash.smallest && (
        <p className="lw-quiet">
          The search was cut short: a smaller set of clashing records may exist.
        </p>
      )}
    </article>
  );
}

function ClashingRecords({ clash }: { clash: Contradiction }) {
  return (
    <ol className="lw-spaced">
      {clash.records.map((one) => (
        <li key={one.recordId}>
          {one.fish !== null && <FishLink fish={one.fish} />}
          {one.spawn !== null && <Link to={`/spawns/${one.spawn.id}`}>{one.spawn.tag}</Link>}{' '}
          {withoutTag(one.text, one.fish?.tag ?? one.spawn?.tag ?? '')}
          <span className="lw-small">{one.remedy}</span>
        </li>
      ))}
    </ol>
  );
}

function DoubtfulParentages({ clash }: { clash: Contradiction }) {
  return (
    clash.parentages.length > 0 && (
      <>
        <p>A wrong parentage would explain it as well. Check these:</p>
        <ul>
          {clash.parentages.map((one) => (
            <li key={one.young?.id ?? ''}>
              <FishLink fish={one.young} /> from <FishLink fish={one.sire} /> ×{' '}
              <FishLink fish={one.dam} />
            </li>
          ))}
        </ul>
      </>
    )
  );
}
