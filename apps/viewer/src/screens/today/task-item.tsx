import { clsx } from 'clsx';
import { HOUR } from '@linewright/care';
import { Button, TextInput } from '@mantine/core';
import { useState, type SetStateAction, type Dispatch } from 'react';
import { Link } from 'react-router';
import type { CareTask } from '../../api/care.js';
import { now } from '../../clock/clock.js';
import { CareWhy } from '../../components/care-why.js';
import { useUnsaved } from '../../components/unsaved.js';
import {
  afterWords,
  clockText,
  dayText,
  instantOf,
  lateText,
  whenText,
} from '../../wording/care-words.js';
import { toDateText, toLocalTimeText } from '../../wording/figures.js';
import todayStyles from './today.module.css';
import whyStyles from '../../components/why.module.css';
import type { CareStep } from '../../api/care.js';

export interface TaskItemProps {
  task: CareTask;
  /** Under a heading that names the spawn already. */
  underSpawn: boolean;
  saving: boolean;
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
  const day = toDateText(new Date(task.about));
  return task.waitsFor.length > 0
    ? `expected ${dayText(day)}, ${afterWords(task.waitsFor)}`
    : `about ${dayText(day)} ${clockText(task.about)}`;
}

/** One thing to do: what, where, when; one tap records it. */
export function TaskItem({ task, underSpawn, saving, onDone, onSkip }: TaskItemProps) {
  const [open, setOpen] = useState<'why' | 'time' | 'skip' | null>(null);
  const { step, spawn } = task;
  const toggle = (what: 'why' | 'time' | 'skip') => setOpen(open === what ? null : what);
  const about = `${step.title}, ${spawn.tag}`;
  const overdue = task.state === 'OVERDUE';
  return (
    <li
      className={overdue ? clsx(todayStyles['task'], todayStyles['overdue']) : todayStyles['task']}
      tabIndex={-1}
      data-task={task.id}
    >
      <TaskLine
        step={step}
        underSpawn={underSpawn}
        spawn={spawn}
        overdue={overdue}
        task={task}
        saving={saving}
        about={about}
        onDone={onDone}
      />
      {step.caution !== null && task.state !== 'UPCOMING' && (
        <p className="lw-caution">
          <strong>Caution.</strong> {step.caution}
        </p>
      )}
      <MoreButtons open={open} about={about} toggle={toggle} />
      {open === 'why' && (
        <div className={whyStyles['body']}>
          <CareWhy step={step} reasons={task.reasons} from={task.from} to={task.to} />
        </div>
      )}
      <DoneAt open={open} setOpen={setOpen} onDone={onDone} task={task} />
      <SkipWhy open={open} setOpen={setOpen} onSkip={onSkip} task={task} />
    </li>
  );
}

interface WithTextProps {
  label: string;
  type: 'text' | 'datetime-local';
  button: string;
  note?: boolean;
  onGive: (text: string, note: string | null) => void;
}

function SkipWhy({
  open,
  setOpen,
  onSkip,
  task,
}: {
  open: string | null;
  setOpen: Dispatch<SetStateAction<'why' | 'time' | 'skip' | null>>;
  onSkip: (task: CareTask, reason: string) => void;
  task: CareTask;
}) {
  return (
    open === 'skip' && (
      <WithText
        label="Why it is skipped"
        type="text"
        button="Skip"
        onGive={(reason) => {
          setOpen(null);
          onSkip(task, reason);
        }}
      />
    )
  );
}

function DoneAt({
  open,
  setOpen,
  onDone,
  task,
}: {
  open: string | null;
  setOpen: Dispatch<SetStateAction<'why' | 'time' | 'skip' | null>>;
  onDone: (task: CareTask, at: string, note: string | null) => void;
  task: CareTask;
}) {
  return (
    open === 'time' && (
      <WithText
        label="When it was done"
        type="datetime-local"
        note
        button="Record"
        onGive={(local, note) => {
          setOpen(null);
          onDone(task, instantOf(local), note);
        }}
      />
    )
  );
}

function TaskLine({
  step,
  underSpawn,
  spawn,
  overdue,
  task,
  saving,
  about,
  onDone,
}: {
  step: CareStep;
  underSpawn: boolean;
  spawn: CareTask['spawn'];
  overdue: boolean;
  task: CareTask;
  saving: boolean;
  about: string;
  onDone: (task: CareTask, at: string, note: string | null) => void;
}) {
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
          {overdue && <span className={todayStyles['late']}>! {lateText(task.to)} overdue</span>}
          {timeText(task)}
        </div>
      </div>
      <Button
        className={
          overdue || task.state === 'DUE'
            ? clsx(todayStyles['done'], 'lw-primary')
            : todayStyles['done']
        }
        variant={overdue || task.state === 'DUE' ? 'filled' : 'default'}
        disabled={saving}
        aria-label={`${doneWord[step.kind]}: ${about}`}
        onClick={() => onDone(task, now().toISOString(), null)}
      >
        {doneWord[step.kind]}
      </Button>
    </div>
  );
}

function MoreButtons({
  open,
  about,
  toggle,
}: {
  open: string | null;
  about: string;
  toggle: (what: 'why' | 'time' | 'skip') => void;
}) {
  return (
    <div className={todayStyles['more']}>
      <button
        type="button"
        aria-expanded={open === 'why'}
        aria-label={`Why: ${about}`}
        onClick={() => toggle('why')}
      >
        why?
      </button>
      <button
        type="button"
        aria-expanded={open === 'time'}
        aria-label={`Done earlier: ${about}`}
        onClick={() => toggle('time')}
      >
        done earlier
      </button>
      <button
        type="button"
        aria-expanded={open === 'skip'}
        aria-label={`Skip: ${about}`}
        onClick={() => toggle('skip')}
      >
        skip
      </button>
    </div>
  );
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
