import '../../components/pair-judgement.css';
import { Checkbox } from '@mantine/core';
import { Link, useParams, useSearchParams } from 'react-router';
import { LINE_HEALTH, type LineHealth } from '../../api/population.js';
import { useRead } from '../../api/use-read.js';
import { Screen } from '../../components/screen.js';
import { Empty, Shown } from '../../components/states.js';
import { plural } from '../../wording/figures.js';
import { inUseWords } from '../../wording/line-health-words.js';
import { BalanceSections } from './balance-sections.js';
import { CautionSection } from './caution-section.js';
import { EffectiveSection } from './effective-section.js';
import { FoundersSection } from './founders-section.js';
import { InbreedingSections } from './inbreeding-sections.js';
import { KinshipSection } from './kinship-section.js';

/** How a line stands: its inbreeding, founders, effective numbers, and which fish matter for them. */
export function LineHealthScreen() {
  const { id = '' } = useParams();
  const [search, setSearch] = useSearchParams();
  const unsorted = search.get('unsorted') === 'yes';
  const read = useRead(LINE_HEALTH, { lineId: id, includeUnsorted: unsorted });
  const count = (wanted: boolean) =>
    setSearch(wanted ? { unsorted: 'yes' } : {}, { replace: true });
  if (read.data === undefined) {
    return (
      <Screen title="Line health">
        <Shown read={read} what="the line’s figures">
          {() => null}
        </Shown>
      </Screen>
    );
  }
  return <LineHealthPage health={read.data.lineHealth} unsorted={unsorted} onCount={count} />;
}

interface PageProps {
  health: LineHealth;
  unsorted: boolean;
  onCount: (unsorted: boolean) => void;
}

function LineHealthPage({ health, unsorted, onCount }: PageProps) {
  const { line, fishCount, inUseCount, whyNone, figures } = health;
  return (
    <Screen
      title={`Health of line ${line.code}`}
      lead={
        <>
          <Link to={`/lines/${line.id}`}>
            {line.code} · {line.name}
          </Link>{' '}
          · {plural(inUseCount, 'fish', 'fish')} in use of {fishCount.toLocaleString('en')} recorded
        </>
      }
      actions={
        <Link to={`/lines/${line.id}/relationship${unsorted ? '?unsorted=yes' : ''}`}>
          Relationship map
        </Link>
      }
    >
      <p className="lw-words">
        These figures are about kinship on record, not about how well the fish do.{' '}
        {inUseWords(unsorted)}
      </p>
      <Checkbox
        label="Count the unsorted too"
        checked={unsorted}
        onChange={(event) => onCount(event.currentTarget.checked)}
      />
      {figures === null ? (
        <Empty action={<Link to={`/lines/${line.id}`}>Go to the line</Link>}>{whyNone}</Empty>
      ) : (
        <>
          <InbreedingSections figures={figures} code={line.code} />
          <FoundersSection figures={figures} />
          <EffectiveSection figures={figures} />
          <BalanceSections figures={figures} />
          <KinshipSection figures={figures} lineId={line.id} />
        </>
      )}
      <CautionSection />
    </Screen>
  );
}
