import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link, useNavigate, useParams } from 'react-router';
import {
  SCORE_SHEET,
  WITHDRAW_SHEET,
  type ScoreSheet,
  type SheetLine,
  type SheetVersion,
} from '../../api/score-sheets.js';
import { useRead } from '../../api/use-read.js';
import { DataTable } from '../../components/data-table.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Sheet } from '../../components/sheet.js';
import { Empty, Shown } from '../../components/states.js';
import { WithdrawRecord } from '../../components/withdraw-record.js';
import { MayChangeContext } from '../../session/may.js';
import { HistoryPanel } from '../../panels/history-panel.js';
import { dayOf, plainNumber, plural } from '../../wording/figures.js';
import { deductingSeverities, severityWord, windowText } from '../../wording/sheet-words.js';
import { SheetForm } from './sheet-form.js';
import type { Column } from '../../components/data-table.js';

export function ScoreSheetScreen() {
  const { id = '' } = useParams();
  const read = useRead(SCORE_SHEET, { id });
  if (read.data === undefined) {
    return (
      <Screen title="Score sheet">
        <Shown read={read} what="the score sheet">
          {() => null}
        </Shown>
      </Screen>
    );
  }
  const sheet = read.data.scoreSheet;
  return (
    <MayChangeContext value={sheet.mayChange}>
      <SheetPage key={id} sheet={sheet} />
    </MayChangeContext>
  );
}

function SheetPage({ sheet }: { sheet: ScoreSheet }) {
  const [open, setOpen] = useState<'revise' | 'withdraw' | null>(null);
  const navigate = useNavigate();
  const close = () => setOpen(null);
  const { current } = sheet;
  const weighted = current.lines.some((line) => line.weight !== null);
  return (
    <Screen
      title={sheet.name}
      lead={
        <>
          Version {sheet.version} · {windowText(current.fromAgeDays, current.toAgeDays)}
          {sheet.description !== null && <> · {sheet.description}</>}
        </>
      }
      actions={
        sheet.withdrawn === null && (
          <>
            <Button className="lw-primary" onClick={() => setOpen('revise')}>
              Revise
            </Button>
            <Button onClick={() => setOpen('withdraw')}>Withdraw</Button>
          </>
        )
      }
    >
      {sheet.withdrawn !== null && (
        <div className="lw-notice lw-notice-caution" role="note">
          Withdrawn on {dayOf(sheet.withdrawn.at)}: {sheet.withdrawn.reason}
        </div>
      )}
      <p className="lw-quiet">
        Fish are scored on this sheet on <Link to="/fish">their own pages</Link>.
      </p>
      <SheetSections weighted={weighted} current={current} />
      {sheet.versions.length > 1 && <VersionsSection sheet={sheet} />}
      <HistoryPanel recordKind="SCORE_SHEET" recordId={sheet.id} />
      <Sheet title={`Revise ${sheet.name}`} opened={open === 'revise'} onClose={close} size={720}>
        <SheetForm sheet={sheet} onSaved={close} onCancel={close} />
      </Sheet>
      <WithdrawRecord
        mutation={WITHDRAW_SHEET}
        record={sheet}
        title={`Withdraw ${sheet.name}`}
        what={`score sheet ${sheet.name}`}
        opened={open === 'withdraw'}
        onClose={close}
        onWithdrawn={() => void navigate('/score-sheets')}
      />
    </Screen>
  );
}

function SheetSections({ weighted, current }: { weighted: boolean; current: SheetVersion }) {
  return (
    <div className="lw-columns">
      <Section
        title="Traits"
        aside={weighted ? 'with your weights' : 'no weights set: all counted traits count equally'}
      >
        <LineTable lines={current.lines} weighted={weighted} />
      </Section>
      <FaultsSection version={current} />
    </div>
  );
}

function levelText({ noneAt, fullAt, trait }: SheetLine): string {
  if (noneAt === null || fullAt === null) return 'does not count';
  const unit = trait.unit === null ? '' : ` ${trait.unit}`;
  return `${plainNumber(noneAt)} to ${plainNumber(fullAt)}${unit}`;
}

function LineTable({ lines, weighted }: { lines: readonly SheetLine[]; weighted: boolean }) {
  return (
    <DataTable
      caption="Traits of the sheet"
      rows={lines}
      rowKey={(line) => line.trait.id}
      columns={lineColumns(weighted)}
    />
  );
}

function lineColumns(weighted: boolean): readonly Column<SheetLine>[] {
  return [
    {
      key: 'trait',
      title: 'Trait',
      cell: (line) => (
        <>
          <Link to={`/traits/${line.trait.id}`}>{line.trait.name}</Link>
          {line.trait.grades.length > 0 && (
            <div className="lw-quiet">
              {line.trait.grades
                .map((grade) => `${grade.name} from ${plainNumber(grade.from)}`)
                .join(', ')}
            </div>
          )}
          {line.traitVersion !== line.trait.version && (
            <div>
              Its meaning has changed (version {line.traitVersion} to {line.trait.version}): look at
              the levels and revise.
            </div>
          )}
        </>
      ),
    },
    { key: 'levels', title: 'No points to full points', number: true, cell: levelText },
    ...(weighted
      ? [
          {
            key: 'weight',
            title: 'Weight',
            number: true,
            cell: (line: SheetLine) => plainNumber(line.weight ?? 0),
          },
        ]
      : []),
  ];
}

function FaultsSection({ version }: { version: SheetVersion }) {
  const set = new Map(version.deductions.map((one) => [one.severity, one.points]));
  const points = deductingSeverities.map(
    (of) => `${severityWord[of]} ${set.has(of) ? plainNumber(set.get(of) ?? 0) : 'not set'}`,
  );
  return (
    <Section title="Faults">
      {version.faults.length === 0 ? (
        <Empty>This sheet has no faults.</Empty>
      ) : (
        <>
          <DataTable
            caption="Faults of the sheet"
            rows={version.faults}
            rowKey={(fault) => fault.id}
            columns={[
              { key: 'name', title: 'Fault', cell: (fault) => fault.name },
              { key: 'class', title: 'Class', cell: (fault) => severityWord[fault.severity] },
              {
                key: 'points',
                title: 'Takes off',
                number: true,
                cell: (fault) =>
                  fault.severity === 'DISQUALIFYING'
                    ? 'disqualifies'
                    : fault.points === null
                      ? 'not set'
                      : plainNumber(fault.points),
              },
            ]}
          />
          <p className="lw-quiet">Points by class, set by you: {points.join(', ')}.</p>
        </>
      )}
    </Section>
  );
}

function VersionsSection({ sheet }: { sheet: ScoreSheet }) {
  return (
    <Section title="Versions" aside={plural(sheet.versions.length, 'version')}>
      <DataTable
        caption="Versions"
        rows={[...sheet.versions].reverse()}
        rowKey={(version) => String(version.version)}
        columns={[
          { key: 'version', title: 'Version', number: true, cell: (version) => version.version },
          {
            key: 'made',
            title: 'Created',
            unbroken: true,
            cell: ({ madeAt }) => dayOf(madeAt),
          },
          {
            key: 'traits',
            title: 'Traits',
            cell: ({ lines }) =>
              lines
                .map(({ trait, weight }) =>
                  weight === null ? trait.name : `${trait.name} × ${plainNumber(weight)}`,
                )
                .join(', '),
          },
          { key: 'faults', title: 'Faults', number: true, cell: ({ faults }) => faults.length },
        ]}
      />
    </Section>
  );
}
