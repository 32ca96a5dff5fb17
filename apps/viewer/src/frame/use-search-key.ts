import { useEffect, useState } from 'react';

/** Whether a key belongs to what has the focus: somebody types there, or a sheet stands over the screen. */
const isTaken = (target: EventTarget | null): boolean => {
  const typed =
    target instanceof HTMLElement && target.closest('input, textarea, select, [contenteditable]');
  return Boolean(typed) || document.querySelector('[role="dialog"]') !== null;
};

/** The search over any screen: opened by the key `/` or a button. */
export function useSearchKey(): { opened: boolean; open: () => void; close: () => void } {
  const [opened, setOpened] = useState(false);
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.key !== '/' || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.defaultPrevented || isTaken(event.target)) return;
      event.preventDefault();
      setOpened(true);
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, []);
  return { opened, open: () => setOpened(true), close: () => setOpened(false) };
}
