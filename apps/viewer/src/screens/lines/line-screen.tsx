import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import { FISH_LIST, type FishRow } from '../../api/fish.js';
import { LINE, WITHDRAW_LINE, type LineFacts } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { FishFace } from '../../components/fish-face.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { FishPictures } from '../../panels/fish-pictures.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { MayChangeContext, useMayChange, useOfTheHouse } from '../../session/may.js';
import { useSession } from '../../session/session-context.js';
import { ageToday } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { PlanSection } from '../line-routes/plan-section.js';
import { ClubSection } from './club-section.js';
import { CorrectLineForm } from './line-form.js';
import { RoundsSection } from './rounds-section.js';
import { SharedWithSection } from './shared-with-section.js';
import { InbreedingCostSection, MovingSection } from './line-merit-sections.js';

export function LineScreen() {
  const { id = '' } = useParams();
  const read = useRead(LINE, { id });
  return (
    <Shown read={read} what="the line">
      {({ line }) => (
        <MayChangeContext value={line.mayChange}>
          <LinePage key={line.id} line={line} />
        </MayChangeContext>
      )}
    </Shown>
  );
}

function LinePage({ line }: { line: LineFacts }) {
  const [sheet, setSheet] = useState<OpenSheet>(null);
  const navigate = useNavigate();
  const { role } = useSession();
  const mayChange = useMayChange();
  const close = () => setSheet(null);
  return (
    <Screen
      title={`${line.code} · ${line.name}`}
      lead={line.goal ?? undefined}
      links={<LineLinks line={line} />}
      actions={<LineActions line={line} onOpen={setSheet} />}
    >
      <div className="lw-columns">
        <LineFactsSection line={line} />
        {mayChange && <ShareSection lineId={line.id} />}
      </div>
      {(role === 'OWNER' || role === 'KEEPER') && mayChange && (
        <>
          <SharedWithSection line={line} />
          <ClubSection lineId={line.id} />
        </>
      )}
      {mayChange && (
        <>
          <PlanSection lineId={line.id} search />
          <RoundsSection lineId={line.id} />
          <MovingSection line={line} />
          <InbreedingCostSection line={line} />
        </>
      )}
      <FishInUse line={line} />
      <HistoryPanel recordKind="LINE" recordId={line.id} />
      <Sheet title={`Correct line ${line.code}`} opened={sheet === 'correct'} onClose={close}>
        <CorrectLineForm line={line} onSaved={close} onCancel={close} />
      </Sheet>
      <WithdrawRecord
        mutation={WITHDRAW_LINE}
        record={line}
        title={`Withdraw line ${line.code}`}
        what={`line ${line.code}`}
        opened={sheet === 'withdraw'}
        onClose={close}
        onWithdrawn={() => void navigate('/lines')}
      />
    </Screen>
  );
}

type OpenSheet = 'correct' | 'withdraw' | null;

interface LineActionsProps {
  line: LineFacts;
  onOpen: (sheet: OpenSheet) => void;
}

function LineLinks({ line }: { line: LineFacts }) {
  const mayChange = useMayChange();
  return (
    <>
      {mayChange && (
        <Link className="lw-link-button" to={`/lines/${line.id}/purpose`}>
          What it is for
        </Link>
      )}
      <Link className="lw-link-button" to={`/lines/${line.id}/health`}>
        Line health
      </Link>
      {mayChange && (
        <>
          <Link className="lw-link-button" to={`/lines/${line.id}/routes`}>
            Routes and forecast
          </Link>
          <Link className="lw-link-button" to={`/lines/${line.id}/outcross`}>
            Outcross
          </Link>
        </>
      )}
      <Link className="lw-link-button" to={`/lines/${line.id}/relationship`}>
        Relationship map
      </Link>
      <Link className="lw-link-button" to={`/print?line=${line.id}`}>
        Print
      </Link>
    </>
  );
}

function LineActions({ line, onOpen }: LineActionsProps) {
  return (
    <>
      <Button onClick={() => onOpen('correct')}>Correct</Button>
      {line.withdrawn === null && <Button onClick={() => onOpen('withdraw')}>Withdraw</Button>}
    </>
  );
}

function LineFactsSection({ line }: { line: LineFacts }) {
  return (
    <Section title="Facts">
      <Facts
        facts={[
          {
            name: 'Record kept by',
            value: line.person.here ? `${line.person.name} (here)` : line.person.name,
          },
          { name: 'Fish in use', value: line.inUseCount },
          {
            name: 'Fish recorded',
            value: <Link to={`/fish?line=${line.id}&use=all`}>{line.fishCount}</Link>,
          },
          {
            name: 'Spawns',
            value: <Link to={`/spawns?line=${line.id}`}>{line.spawnCount}</Link>,
          },
          { name: 'Goal', value: line.goal },
        ]}
      />
    </Section>
  );
}

function ShareSection({ lineId }: { lineId: string }) {
  const ofTheHouse = useOfTheHouse();
  return (
    <Section title="Share and export">
      {ofTheHouse && (
        <p className="lw-words">
          The line’s file carries its fish, the ancestors they need, its spawns and scores. A
          partner takes it in under “Share a line”; nothing of theirs is overwritten. What the line
          is for, its plan and its rounds are yours and are not in it.
        </p>
      )}
      <div className="lw-form-buttons">
        {ofTheHouse && (
          <a href={`/export/line/${lineId}.zip?photos=yes`} download>
            Download the line’s file
          </a>
        )}
        <a href={`/export/pedigree.csv?line=${lineId}`} download>
          Download as CSV
        </a>
      </div>
    </Section>
  );
}

const SHOWN = 100;

function FishInUse({ line }: { line: LineFacts }) {
  const read = useRead(FISH_LIST, {
    filter: { lineIds: [line.id], inUse: true },
    sort: { field: 'TAG', direction: 'ASC' },
    first: SHOWN,
  });
  return (
    <Section
      title="Fish in use"
      actions={<Link to={`/fish?line=${line.id}&use=all`}>All fish of this line</Link>}
    >
      <Shown read={read} what="the fish">
        {({ fishList }) => (
          <>
            {fishList.edges.length === 0 ? (
              <NoneInUse />
            ) : (
              <FishPictures ids={fishList.edges.map(({ node }) => node.id)}>
                <FishTable fish={fishList.edges.map((edge) => edge.node)} />
              </FishPictures>
            )}
            {fishList.totalCount > SHOWN && (
              <p className="lw-quiet">
                The first {SHOWN} of {fishList.totalCount};{' '}
                <Link to={`/fish?line=${line.id}&use=yes`}>all of them</Link>.
              </p>
            )}
          </>
        )}
      </Shown>
    </Section>
  );
}

function NoneInUse() {
  return (
    <Empty action={<Link to="/fish">Go to the fish</Link>}>
      No fish of this line is in use. Put a fish in the line by correcting it, or record a spawn of
      the line.
    </Empty>
  );
}

function FishTable({ fish }: { fish: readonly FishRow[] }) {
  return (
    <DataTable
      caption="Fish in use"
      rows={fish}
      rowKey={({ id }) => id}
      columns={[
        { key: 'face', title: 'Looks', cell: (each) => <FishFace fish={each} /> },
        { key: 'tag', title: 'Tag', cell: ({ id, tag }) => <FishLink fish={{ id, tag }} /> },
        { key: 'sex', title: 'Sex', cell: ({ sex }) => <SexMark sex={sex} /> },
        {
          key: 'age',
          title: 'Age',
          number: true,
          cell: ({ hatchDate }) => ageToday(hatchDate) ?? '',
        },
        { key: 'f', title: 'F', number: true, cell: (each) => inbreedingText(each) },
        {
          key: 'now',
          title: 'Decision',
          wideOnly: true,
          cell: ({ disposition }) => <DispositionMark disposition={disposition} />,
        },
      ]}
    />
  );
}
