import { type RefObject, useEffect, useRef } from 'react';
import type { CareTask } from '../../api/care.js';
import type { TaskGroup } from './group-tasks.js';

interface NextInFocus {
  list: RefObject<HTMLDivElement | null>;
  /** Called when a task is recorded, before it leaves the list. */
  leaving: (task: CareTask) => void;
}

/** Who works by keyboard goes on where the task that was recorded stood, instead of from the top of the page. */
export function useNextInFocus(groups: readonly TaskGroup[], saving: boolean): NextInFocus {
  const list = useRef<HTMLDivElement>(null);
  const left = useRef<{ readonly id: string; readonly place: number } | null>(null);
  useEffect(() => {
    if (left.current === null || saving || document.activeElement !== document.body) return;
    const { id, place } = left.current;
    const items = [...(list.current?.querySelectorAll<HTMLElement>('[data-task]') ?? [])];
    // Not onto its button: a key pressed twice is not to record the next task too.
    items[Math.min(place, items.length - 1)]?.focus({ preventScroll: true });
    if (!items.some((item) => item.dataset['task'] === id)) left.current = null;
  }, [groups, saving]);
  const leaving = ({ id }: CareTask) => {
    const ids = groups.flatMap(({ tasks }) => tasks.map((task) => task.id));
    left.current = { id, place: ids.indexOf(id) };
  };
  return { list, leaving };
}
