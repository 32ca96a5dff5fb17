import type { Locator } from 'playwright-core';

/** What a keeper does with the fingers, counted: presses, fields typed in and choices from a list. */
export interface CountedTaps {
  readonly press: (what: Locator) => Promise<void>;
  readonly type: (field: Locator, text: string) => Promise<void>;
  readonly choose: (field: Locator, label: string) => Promise<void>;
  /** Presses and choices take one tap, a field one tap before its text. */
  readonly count: () => number;
}

export const countedTaps = (): CountedTaps => {
  let taps = 0;
  return {
    press: async (what) => {
      taps += 1;
      await what.click();
    },
    type: async (field, text) => {
      taps += 1;
      await field.fill(text);
    },
    choose: async (field, label) => {
      taps += 1;
      await field.selectOption({ label });
    },
    count: () => taps,
  };
};
