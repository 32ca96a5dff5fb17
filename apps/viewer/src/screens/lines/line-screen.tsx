import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import { FISH_LIST } from '../../api/fish.js';
import { LINE, WITHDRAW_LINE, type LineFacts } from '../../api/lines.js';
import { useRead } from '../../api/use-read.js';
import { useSave } from '../../api/use-save.js';
import { DataTable } from '../../components/data-table.js';
import { Facts } from '../../components/facts.js';
import { DispositionMark, FishLink, SexMark } from '../../components/fish-marks.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawForm } from '../../components/withdraw-form.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { ageToday } from '../../wording/figures.js';
import { inbreedingText } from '../../wording/inbreeding-words.js';
import { CorrectLineForm } from './line-form.js';
import { InbreedingCostSection, MovingSection } from './line-merit-sections.js';

export function LineScreen() {
  const { id = '' } = useParams();
  const read = useRead(LINE, { id });
  return (
    <Shown read={read} what="the line">
      {({ line }) => <LinePage key={line.id} line={line} />}
    </Shown>
  );
}

function LinePage({ line }: { line: LineFacts }) {
  const [sheet, setSheet] = useState<'correct' | 'withdraw' | null>(null);
  const navigate = useNavigate();
  const withdrawal = useSave(WITHDRAW_LINE);
  const close = () => setSheet(null);
  return (
    <Screen
      title={`${line.code} · ${line.name}`}
      lead={line.goal ?? undefined}
      actions={
        <>
          <Link className="lw-link-button" to={`/lines/${line.id}/health`}>
            Line health
          </Link>
          <Link className="lw-link-button" to={`/lines/${line.id}/relationship`}>
            Relationship map
          </Link>
          <Link className="lw-link-button" to={`/print?line=${line.id}`}>
            Print
          </Link>
          <Button onClick={() => setSheet('correct')}>Correct</Button>
          {line.withdrawn === null && (
            <Button onClick={() => setSheet('withdraw')}>Withdraw</Button>
          )}
        </>
      }
    >
      <div className="lw-columns">
        <Section title="Facts">
          <Facts
            facts={[
              {
                name: 'Record kept by',
                value: line.keeper.here ? `${line.keeper.name} (here)` : line.keeper.name,
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
        <Section title="Share and export">
          <p className="lw-words">
            The line’s file carries its fish, the ancestors they need, its spawns and scores. A
            partner takes it in under “Share a line”; nothing of theirs is overwritten.
          </p>
          <div className="lw-form-buttons">
            <a href={`/export/line/${line.id}.json`} download>
              Download the line’s file
            </a>
            <a href={`/export/pedigree.csv?line=${line.id}`} download>
              Download as CSV
            </a>
          </div>
        </Section>
      </div>
      <MovingSection line={line} />
      <InbreedingCostSection line={line} />
      <FishInUse line={line} />
      <HistoryPanel recordKind="LINE" recordId={line.id} />
      <Sheet title={`Correct line ${line.code}`} opened={sheet === 'correct'} onClose={close}>
        <CorrectLineForm line={line} onSaved={close} onCancel={close} />
      </Sheet>
      <Sheet title={`Withdraw line ${line.code}`} opened={sheet === 'withdraw'} onClose={close}>
        <WithdrawForm
          what={`line ${line.code}`}
          saving={withdrawal.saving}
          problem={withdrawal.problem}
          onCancel={close}
          onSubmit={async (reason) => {
            const input = { id: line.id, reason, revision: line.revision };
            if ((await withdrawal.save({ input })) !== null) void navigate('/lines');
          }}
        />
      </Sheet>
    </Screen>
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
        {({ fishList }) =>
          fishList.edges.length === 0 ? (
            <Empty action={<Link to="/fish">Go to the fish</Link>}>
              No fish of this line is in use. Put a fish in the line by correcting it, or record a
              spawn of the line.
            </Empty>
          ) : (
            <>
              <DataTable
                caption="Fish in use"
                rows={fishList.edges.map((edge) => edge.node)}
                rowKey={(fish) => fish.id}
                columns={[
                  {
                    key: 'tag',
                    title: 'Tag',
                    cell: (fish) => <FishLink fish={{ id: fish.id, tag: fish.tag }} />,
                  },
                  { key: 'sex', title: 'Sex', cell: (fish) => <SexMark sex={fish.sex} /> },
                  {
                    key: 'age',
                    title: 'Age',
                    number: true,
                    cell: (fish) => ageToday(fish.hatchDate) ?? '',
                  },
                  {
                    key: 'f',
                    title: 'F',
                    number: true,
                    cell: (fish) => inbreedingText(fish),
                  },
                  {
                    key: 'now',
                    title: 'Decision',
                    wideOnly: true,
                    cell: (fish) => <DispositionMark disposition={fish.disposition} />,
                  },
                ]}
              />
              {fishList.totalCount > SHOWN && (
                <p className="lw-quiet">
                  The first {SHOWN} of {fishList.totalCount};{' '}
                  <Link to={`/fish?line=${line.id}&use=yes`}>all of them</Link>.
                </p>
              )}
            </>
          )
        }
      </Shown>
    </Section>
  );
}
