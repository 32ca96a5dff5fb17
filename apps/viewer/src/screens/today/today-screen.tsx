import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { CareTask } from '../../api/care.js';
import { zoneHere } from '../../clock/clock.js';
import { ProblemNotice } from '../../components/notice.js';
import { Screen } from '../../components/screen.js';
import { Section } from '../../components/section.js';
import { Empty, Shown } from '../../components/states.js';
import { ClubRequests } from '../../panels/club-requests.js';
import { FishClaims } from '../../panels/hand-over/fish-claims.js';
import { WaterAlerts } from '../../panels/water-alerts.js';
import { BackupNotice } from './backup-notice.js';
import { bySpawn, byTime, cautionsBefore, dueWords, type TaskGroup } from './group-tasks.js';
import { HandOversDue } from './hand-overs-due.js';
import { JustDone } from './just-done.js';
import { PairsToMake } from './pairs-to-make.js';
import { TaskItem } from './task-item.js';
import { useDueTasks } from './use-due-tasks.js';
import { useNextInFocus } from './use-next-in-focus.js';
import { useTaskRecords, type TaskRecords } from './use-task-records.js';
import viewChoiceStyles from '../../components/view-choice.module.css';
import todayStyles from './today.module.css';

type View = 'time' | 'spawn';

/** What the spawns under way ask for: overdue, today, and the days to come. */
export function TodayScreen() {
  const [view, setView] = useState<View>('time');
  const { read, now, today, days, more } = useDueTasks();
  return (
    <Screen
      title="Today"
      lead={read.data === undefined ? undefined : dueWords(read.data.careTasks)}
      actions={<ViewChoice view={view} onView={setView} />}
    >
      <BackupNotice />
      <HandOversDue />
      <FishClaims open />
      <ClubRequests title="Asked in the club" openAlone />
      <PairsToMake />
      <WaterAlerts brief />
      <Shown read={read} what="the tasks">
        {({ careTasks }) =>
          careTasks.length === 0 ? (
            <NothingDue days={days} />
          ) : (
            <Tasks
              groups={view === 'time' ? byTime(careTasks, today, now) : bySpawn(careTasks)}
              underSpawn={view === 'spawn'}
            />
          )
        }
      </Shown>
      {read.data !== undefined && more !== null && <Button onClick={more}>Show two weeks</Button>}
    </Screen>
  );
}

function ViewChoice({ view, onView }: { view: View; onView: (view: View) => void }) {
  return (
    <div className={viewChoiceStyles['choice']} role="group" aria-label="Grouped">
      <button type="button" aria-pressed={view === 'time'} onClick={() => onView('time')}>
        By time
      </button>
      <button type="button" aria-pressed={view === 'spawn'} onClick={() => onView('spawn')}>
        By spawn
      </button>
    </div>
  );
}

function NothingDue({ days }: { days: number }) {
  return (
    <Empty
      action={
        <p>
          <Link to="/planned">Planned pairings</Link> · <Link to="/spawns">Spawns</Link>
        </p>
      }
    >
      No spawn needs anything in the next {days} days. Record a spawn, or start the log of a planned
      pairing: what comes next then shows here.
    </Empty>
  );
}

function Tasks({ groups, underSpawn }: { groups: readonly TaskGroup[]; underSpawn: boolean }) {
  const records = useTaskRecords();
  const { list, leaving } = useNextInFocus(groups, records.saving);
  const before = cautionsBefore(groups);
  return (
    <div ref={list}>
      <ProblemNotice problem={records.problem} />
      {groups.map((group) => (
        <TaskGroup
          key={group.key}
          group={group}
          underSpawn={underSpawn}
          records={records}
          leaving={leaving}
          cautionsBefore={before}
        />
      ))}
      <JustDone recorded={records.last} undoing={records.undoing} onUndo={records.undo} />
      <p className="lw-quiet">
        Times are those of this device ({zoneHere()}). “why?” shows what a step follows and where
        the practice comes from; change the steps under <Link to="/care-plans">Care plans</Link>.
      </p>
    </div>
  );
}

interface TaskGroupProps {
  group: TaskGroup;
  underSpawn: boolean;
  records: TaskRecords;
  leaving: (task: CareTask) => void;
  cautionsBefore: ReadonlyMap<string, string | null>;
}

function TaskGroup(props: TaskGroupProps) {
  const { group, underSpawn, records, leaving } = props;
  return (
    <Section
      title={group.title}
      aside={group.tasks.length}
      actions={underSpawn ? <Link to={`/spawns/${group.key}`}>Log of {group.title}</Link> : null}
    >
      <ul className={todayStyles['tasks']}>
        {group.tasks.map((task) => (
          <TaskItem
            key={task.id}
            task={task}
            underSpawn={underSpawn}
            saving={records.saving}
            cautionBefore={props.cautionsBefore.get(task.id) ?? null}
            onDone={(...given) => {
              leaving(task);
              records.done(...given);
            }}
            onSkip={(...given) => {
              leaving(task);
              records.skip(...given);
            }}
          />
        ))}
      </ul>
    </Section>
  );
}
