import { clsx } from 'clsx';
import { DAY } from '@linewright/care';
import { useState } from 'react';
import { Link } from 'react-router';
import { SPAWN_CARE, type PlannedStep, type SpawnCare } from '../../api/care.js';
import { useRead } from '../../api/use-read.js';
import { now as clockNow } from '../../clock/clock.js';
import { CareWhy } from '../../components/care-why.js';
import { DataTable } from '../../components/data-table.js';
import { Section } from '../../components/section.js';
import { Shown } from '../../components/states.js';
import { Why } from '../../components/why.js';
import { CareTimeline } from '../../drawings/index.js';
import { afterWords, happenedText, whenText } from '../../wording/care-words.js';
import { timelineOf, type TimelineSpan } from './timeline-rows.js';
import viewChoiceStyles from '../../components/view-choice.module.css';
import styles from './care-section.module.css';

/** The plan of one spawn: drawn against what happened, and step by step with its reasons. */
export function CareSection({ spawnId }: { spawnId: string }) {
  const read = useRead(SPAWN_CARE, { id: spawnId });
  return (
    <Section title="Expected and happened" actions={<Link to="/today">Today’s tasks</Link>}>
      <Shown read={read} what="the plan">
        {({ spawn: { care } }) => <Plan care={care} />}
      </Shown>
    </Section>
  );
}

function Plan({ care }: { care: SpawnCare }) {
  if (care.log.length === 0) {
    return (
      <p className="lw-quiet">
        No day of this spawn is recorded. Record when it spawned or hatched: the plan follows from
        that.
      </p>
    );
  }
  return (
    <>
      <DrawnPlan care={care} />
      <details>
        <summary className={styles['plan-summary']}>
          Every step, with why ({care.template.name}
          {care.template.id !== null && `, version ${care.template.revision}`})
        </summary>
        <StepTable steps={care.steps} />
        <p className="lw-quiet">
          Published figures hold for the conditions named with them and do not move the plan. The
          steps can be changed for the line under <Link to="/care-plans">Care plans</Link>.
        </p>
      </details>
    </>
  );
}

/** A brood that is past its first days is shown whole at first. */
function DrawnPlan({ care }: { care: SpawnCare }) {
  const [now] = useState(() => clockNow().getTime());
  const young = timelineOf(care, 'first days', now);
  const [span, setSpan] = useState<TimelineSpan>(
    young.zero + 13 * DAY < now ? 'whole' : 'first days',
  );
  const { rows, zero, zeroLabel, range } =
    span === 'first days' ? young : timelineOf(care, 'whole', now);
  return (
    <>
      <SpanChoice span={span} onSpan={setSpan} />
      <CareTimeline
        {...{ rows, zero, zeroLabel, range, now }}
        timeText={(time) => whenText(new Date(time).toISOString())}
      />
    </>
  );
}

interface SpanChoiceProps {
  span: TimelineSpan;
  onSpan: (span: TimelineSpan) => void;
}

function SpanChoice({ span, onSpan }: SpanChoiceProps) {
  const choice = (which: TimelineSpan, words: string) => (
    <button type="button" aria-pressed={span === which} onClick={() => onSpan(which)}>
      {words}
    </button>
  );
  return (
    <div className={viewChoiceStyles['choice']} role="group" aria-label="Stretch of time">
      {choice('first days', 'First days')}
      {choice('whole', 'Whole spawn')}
    </div>
  );
}

const stateWord: Record<PlannedStep['state'], string> = {
  DONE: 'done',
  SKIPPED: 'skipped',
  DUE: 'due',
  OVERDUE: 'overdue',
  UPCOMING: 'to come',
  NO_LONGER: 'not needed now',
};

const becauseText = ({ noLonger, step }: PlannedStep): string => {
  if (noLonger === null) return '';
  switch (noLonger.because) {
    case 'ENDED':
      return `the spawn ended: ${noLonger.by ?? ''}`;
    case 'PAST':
      return `“${noLonger.by ?? ''}” came after it: it is past`;
    case 'LAPSED':
      return step.everyHours === null
        ? 'too late to be useful'
        : 'not recorded for a long time: record it to start again';
    case 'NOT_NEEDED':
      return `only needed with “${noLonger.by ?? ''}”`;
  }
};

const whenOf = (planned: PlannedStep): string => {
  const last = planned.records.at(-1);
  if (planned.state === 'DONE' || planned.state === 'SKIPPED')
    return last === undefined ? '' : happenedText(last);
  if (planned.state === 'NO_LONGER') return becauseText(planned);
  if (planned.about === null) return afterWords(planned.waitsFor);
  const after = planned.waitsFor.length > 0 ? `, ${afterWords(planned.waitsFor)}` : '';
  return `about ${whenText(planned.about)}${after}`;
};

function StepWhy({ planned }: { planned: PlannedStep }) {
  const { step, reasons, from, to } = planned;
  return (
    <Why about={step.title} figure={step.title}>
      <CareWhy step={step} reasons={reasons} from={from} to={to} />
      {step.caution !== null && (
        <p className="lw-caution">
          <strong>Caution.</strong> {step.caution}
        </p>
      )}
    </Why>
  );
}

function StepTable({ steps }: { steps: readonly PlannedStep[] }) {
  return (
    <DataTable
      caption="Steps of the plan"
      rows={steps}
      rowKey={(planned) => planned.step.id}
      columns={[
        { key: 'step', title: 'Step', cell: (planned) => <StepWhy planned={planned} /> },
        {
          key: 'state',
          title: 'State',
          cell: ({ state }) => (
            <span className={clsx(styles['state'], styles[`state-${state.toLowerCase()}`])}>
              {stateWord[state]}
            </span>
          ),
        },
        { key: 'when', title: 'When', cell: whenOf },
      ]}
    />
  );
}
