import { createContext, useContext, useEffect, useRef, useState } from 'react';

/**
 * How someone is about to leave: a sheet is closed, the browser goes back or forward, the page is loaded anew, or a link
 * or a finished save leads on.
 */
export type Leaving = 'close' | 'back' | 'reload' | 'onward';

/** Whether something typed would be lost by leaving so. */
export type Unsaved = (leaving: Leaving) => boolean;

/** Asks every form within: only when someone is about to leave, so that typing costs nothing. */
export class UnsavedForms {
  private readonly forms = new Set<Unsaved>();
  private questions = 0;

  constructor(private readonly around: UnsavedForms | null) {}

  add(form: Unsaved): () => void {
    this.forms.add(form);
    const leaveAround = this.around?.add(form);
    return () => {
      this.forms.delete(form);
      leaveAround?.();
    };
  }

  readonly any: Unsaved = (leaving) => [...this.forms].some((form) => form(leaving));

  /** Of the whole screen, whatever sheet this is. */
  readonly anyOfScreen: Unsaved = (leaving) =>
    this.around === null ? this.any(leaving) : this.around.anyOfScreen(leaving);

  /** While the question stands, the Escape key is its own. */
  asks(): () => void {
    if (this.around !== null) return this.around.asks();
    this.questions += 1;
    return () => {
      this.questions -= 1;
    };
  }

  isAsking(): boolean {
    return this.around?.isAsking() ?? this.questions > 0;
  }
}

export const UnsavedContext = createContext(new UnsavedForms(null));

/** Forms within a sheet, which belong to the screen as well. */
export function useUnsavedWithin(): UnsavedForms {
  const around = useContext(UnsavedContext);
  const [within] = useState(() => new UnsavedForms(around));
  return within;
}

/** For every form: tells while mounted whether it holds something typed that is saved nowhere. */
export function useUnsaved(unsaved: boolean | Unsaved): void {
  const forms = useContext(UnsavedContext);
  const latest = useRef(unsaved);
  useEffect(() => {
    latest.current = unsaved;
  });
  useEffect(
    () =>
      forms.add((leaving) =>
        typeof latest.current === 'function' ? latest.current(leaving) : latest.current,
      ),
    [forms],
  );
}
