import { Link, useParams } from 'react-router';
import { LINE } from '../../api/lines.js';
import { LINE_HEALTH, type LineHealth } from '../../api/line-health.js';
import { useRead } from '../../api/use-read.js';
import { CountUnsorted, useCountUnsorted } from '../../components/count-unsorted.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { WaitingComputation } from '../../panels/waiting-computation.js';
import { plural } from '../../wording/figures.js';
import { BalanceSections } from './balance-sections.js';
import { CautionSection } from './caution-section.js';
import { EffectiveSection } from './effective-section.js';
import { FoundersSection } from './founders-section.js';
import { InbreedingSections } from './inbreeding-sections.js';
import { KinshipSection } from './kinship-section.js';

/** How a line stands: its inbreeding, founders, effective numbers, and which fish matter for them. */
export function LineHealthScreen() {
  const { id = '' } = useParams();
  const [unsorted, setUnsorted] = useCountUnsorted();
  const line = useRead(LINE, { id }).data?.line;
  const read = useRead(LINE_HEALTH, { lineId: id, includeUnsorted: unsorted });
  return (
    <Screen
      title={line === undefined ? 'Line health' : `Health of line ${line.code}`}
      lead={
        line !== undefined && (
          <Link to={`/lines/${line.id}`}>
            {line.code} · {line.name}
          </Link>
        )
      }
      actions={
        <Link to={`/lines/${id}/relationship${unsorted ? '?unsorted=yes' : ''}`}>
          Relationship map
        </Link>
      }
    >
      <p className="lw-words">
        These figures are about kinship on record, not about how well the fish do.
      </p>
      <CountUnsorted unsorted={unsorted} onChange={setUnsorted} />
      <Shown read={read} what="the line’s figures">
        {({ lineHealth }) => <Figures health={lineHealth} onDone={read.reload} />}
      </Shown>
      <CautionSection />
    </Screen>
  );
}

function Figures({ health, onDone }: { health: LineHealth; onDone: () => void }) {
  const { line, fishCount, inUseCount, whyNone, waiting, figures } = health;
  if (waiting !== null) {
    const what = `the figures of ${fishCount.toLocaleString('en')} fish and their ancestors`;
    return (
      <WaitingComputation key={waiting.id} computation={waiting} what={what} onDone={onDone} />
    );
  }
  if (figures === null) {
    return <Empty action={<Link to={`/lines/${line.id}`}>Go to the line</Link>}>{whyNone}</Empty>;
  }
  return (
    <>
      <InbreedingSections
        figures={figures}
        code={line.code}
        counted={`${plural(inUseCount, 'fish', 'fish')} of ${fishCount.toLocaleString('en')} recorded`}
      />
      <FoundersSection figures={figures} />
      <EffectiveSection figures={figures} />
      <BalanceSections figures={figures} />
      <KinshipSection figures={figures} lineId={line.id} />
    </>
  );
}
