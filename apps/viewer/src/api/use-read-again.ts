import { useEffect, useEffectEvent } from 'react';
import type { Read } from './use-read.js';

/**
 * Reads again some time after each answer, for as long as `going`. It never asks while an answer is under way: that would give up the
 * one asked for, and where answers take longer than the wait none would ever come.
 */
export function useReadAgain(
  { refreshing, reload }: Pick<Read<unknown>, 'refreshing' | 'reload'>,
  { going, afterMs }: { going: boolean; afterMs: number },
): void {
  const again = useEffectEvent(reload);
  useEffect(() => {
    if (!going || refreshing) return undefined;
    const timer = setTimeout(() => again(), afterMs);
    return () => clearTimeout(timer);
  }, [going, refreshing, afterMs]);
}
