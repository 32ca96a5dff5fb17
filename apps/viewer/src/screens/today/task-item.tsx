import { clsx } from 'clsx';
import { HOUR } from '@linewright/care';
import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'react-router';
import type { CareTask } from '../../api/care.js';
import { now } from '../../clock/clock.js';
import { useUnsaved } from '../../components/unsaved.js';
import {
  afterWords,
  clockText,
  dayText,
  instantOf,
  lateText,
  whenText,
} from '../../wording/care-words.js';
import { dayOf, toLocalTimeText } from '../../wording/figures.js';
import { showsCaution } from './group-tasks.js';
import { TaskWhy } from './task-why.js';
import todayStyles from './today.module.css';

export interface TaskItemProps {
  task: CareTask;
  /** Under a heading that names the spawn already. */
  underSpawn: boolean;
  saving: boolean;
  /** Id of the task above that says the same caution; null where it is said here. */
  cautionBefore: string | null;
  onDone: (task: CareTask, at: string, note: string | null) => void;
  onSkip: (task: CareTask, reason: string) => void;
}

const doneWord: Record<CareTask['step']['kind'], string> = {
  PREPARE: 'Done',
  DO: 'Done',
  FEED: 'Done',
  OBSERVE: 'Seen',
};

function timeText(task: CareTask): string {
  if (task.state === 'OVERDUE') {
    // Of something days late the hour tells nothing.
    return now().getTime() - Date.parse(task.to) < 48 * HOUR ? ` · by ${whenText(task.to)}` : '';
  }
  if (task.state === 'DUE') return `until ${whenText(task.to)}`;
  const day = dayOf(task.about);
  return task.waitsFor.length > 0
    ? `expected ${dayText(day)}, ${afterWords(task.waitsFor)}`
    : `about ${dayText(day)} ${clockText(task.about)}`;
}

type Opened = 'why' | 'time' | 'skip' | null;

/** One thing to do: what, where, when; one tap records it. */
export function TaskItem(props: TaskItemProps) {
  const { task } = props;
  const { step } = task;
  const [open, setOpen] = useState<Opened>(null);
  const about = `${step.title}, ${task.spawn.tag}`;
  return (
    <li
      className={clsx(todayStyles['task'], task.state === 'OVERDUE' && todayStyles['overdue'])}
      tabIndex={-1}
      data-task={task.id}
    >
      <TaskLine {...props} about={about} />
      <TaskCaution task={task} before={props.cautionBefore} />
      <MoreButtons open={open} about={about} onOpen={setOpen} />
      {open === 'why' && <TaskWhy task={task} />}
      <OtherWays {...props} open={open} onClose={() => setOpen(null)} />
    </li>
  );
}

interface OtherWaysProps extends TaskItemProps {
  open: Opened;
  onClose: () => void;
}

/** Done at another time than now, or skipped for a reason. */
function OtherWays({ task, onDone, onSkip, open, onClose }: OtherWaysProps) {
  if (open === 'time')
    return (
      <WithText
        label="When it was done"
        type="datetime-local"
        note
        button="Record"
        onGive={(local, note) => {
          onClose();
          onDone(task, instantOf(local), note);
        }}
      />
    );
  if (open !== 'skip') return null;
  return (
    <WithText
      label="Why it is skipped"
      type="text"
      button="Skip"
      onGive={(reason) => {
        onClose();
        onSkip(task, reason);
      }}
    />
  );
}

interface TaskLineProps extends TaskItemProps {
  about: string;
}

function TaskLine({ task, underSpawn, saving, about, onDone }: TaskLineProps) {
  const { step, spawn } = task;
  const presses = task.state === 'OVERDUE' || task.state === 'DUE';
  return (
    <div className={todayStyles['line']}>
      <div>
        <p className={todayStyles['title']}>{step.title}</p>
        <div className={todayStyles['when']}>
          {!underSpawn && (
            <>
              <Link to={`/spawns/${spawn.id}`}>{spawn.tag}</Link>
              {' · '}
            </>
          )}
          {task.state === 'OVERDUE' && (
            <span className={todayStyles['late']}>! {lateText(task.to)} overdue</span>
          )}
          {timeText(task)}
        </div>
      </div>
      <Button
        className={clsx(todayStyles['done'], presses && 'lw-primary')}
        variant={presses ? 'filled' : 'default'}
        disabled={saving}
        aria-label={`${doneWord[step.kind]}: ${about}`}
        onClick={() => onDone(task, now().toISOString(), null)}
      >
        {doneWord[step.kind]}
      </Button>
    </div>
  );
}

const ways = [
  { what: 'why', words: 'why?', heard: 'Why' },
  { what: 'time', words: 'done earlier', heard: 'Done earlier' },
  { what: 'skip', words: 'skip', heard: 'Skip' },
] as const;

interface MoreButtonsProps {
  open: Opened;
  about: string;
  onOpen: (open: Opened) => void;
}

function MoreButtons({ open, about, onOpen }: MoreButtonsProps) {
  return (
    <div className={todayStyles['more']}>
      {ways.map(({ what, words, heard }) => (
        <button
          key={what}
          type="button"
          aria-expanded={open === what}
          aria-label={`${heard}: ${about}`}
          onClick={() => onOpen(open === what ? null : what)}
        >
          {words}
        </button>
      ))}
    </div>
  );
}

interface WithTextProps {
  label: string;
  type: 'text' | 'datetime-local';
  button: string;
  note?: boolean;
  onGive: (text: string, note: string | null) => void;
}

function WithText({ label, type, button, note = false, onGive }: WithTextProps) {
  // Mostly a little while ago: only the hour is left to change.
  const [offered] = useState(() => (type === 'datetime-local' ? toLocalTimeText(now()) : ''));
  const [text, setText] = useState(offered);
  const [noteText, setNote] = useState('');
  useUnsaved(text !== offered || noteText.trim() !== '');
  return (
    <form
      className="lw-field-row"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() !== '') onGive(text, noteText.trim() === '' ? null : noteText.trim());
      }}
    >
      <TextInput
        label={label}
        type={type}
        required
        value={text}
        onChange={(event) => setText(event.currentTarget.value)}
      />
      {note && (
        <TextInput
          label="Note"
          value={noteText}
          onChange={(event) => setNote(event.currentTarget.value)}
        />
      )}
      <Button type="submit" mt={24}>
        {button}
      </Button>
    </form>
  );
}

/** In full with the first task that has it; those after it lead there. */
function TaskCaution({ task, before }: { task: CareTask; before: string | null }) {
  const { caution } = task.step;
  if (caution === null || !showsCaution(task)) return null;
  if (before !== null)
    return (
      <p className="lw-caution">
        <Link className={todayStyles['above']} to={`#caution-${before}`}>
          Caution, as above
        </Link>
      </p>
    );
  return (
    <p className="lw-caution" id={`caution-${task.id}`}>
      <strong>Caution.</strong> {caution}
    </p>
  );
}
