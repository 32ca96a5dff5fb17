import { useEffect, useRef, type FocusEvent } from 'react';

/** One key goes through the traits, then the classes of faults, then the note, and round again. */
export function useScoreSteps(fishId: string | undefined) {
  const ref = useRef<HTMLDivElement>(null);
  const last = useRef(-1);
  useEffect(() => {
    last.current = -1;
  }, [fishId]);
  const steps = () => [...(ref.current?.children ?? [])];
  const focusable = (step: Element | undefined) =>
    step?.querySelector<HTMLElement>('input, button') ?? null;
  return {
    ref,
    onFocus: (event: FocusEvent) => {
      last.current = steps().findIndex((step) => step.contains(event.target));
    },
    next: () => {
      const all = steps().filter((step) => focusable(step) !== null);
      const from = all.findIndex((step) => step === steps()[last.current]);
      focusable(all[(from + 1) % all.length])?.focus();
    },
  };
}
