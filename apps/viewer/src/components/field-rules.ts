import { decimalIn, isCalendarDate } from '@linewright/pedigree';
import { z } from 'zod';
import { type ScoredTrait, scoreProblem } from '../wording/scores.js';

/** Rules for form fields: each reads the typed text and says what to do when it does not fit. */

/** Blank becomes null. */
export const optionalText = z
  .string()
  .transform((text) => (text.trim() === '' ? null : text.trim()));

export function requiredText(message: string) {
  return z.string().trim().min(1, message);
}

export const optionalDate = z
  .string()
  .refine(
    (text) => text === '' || isCalendarDate(text),
    'Give the date as year-month-day, such as 2026-03-14.',
  )
  .transform((text) => (text === '' ? null : text));

export const requiredDate = z
  .string()
  .refine(isCalendarDate, 'Give the date as year-month-day, such as 2026-03-14.');

/** A number as typed; `NaN` for what is none. */
export function toNumber(text: string): number {
  return decimalIn(text) ?? Number.NaN;
}

export const optionalNumber = z
  .string()
  .refine(
    (text) => text.trim() === '' || Number.isFinite(toNumber(text)),
    'Give a number, such as 12 or 3.5, or leave it blank.',
  )
  .transform((text) => (text.trim() === '' ? null : toNumber(text)));

export const requiredNumber = z
  .string()
  .refine((text) => Number.isFinite(toNumber(text)), 'Give a number, such as 12 or 3.5.')
  .transform(toNumber);

/** A whole number from `least` up. */
export function wholeNumber(least: number, most = 1_000_000) {
  return z
    .string()
    .refine(
      (text) => {
        const value = toNumber(text);
        return Number.isInteger(value) && value >= least && value <= most;
      },
      `Give a whole number from ${least} to ${most.toLocaleString('en')}.`,
    )
    .transform(toNumber);
}

export const optionalWholeNumber = z
  .string()
  .refine(
    (text) => text.trim() === '' || (Number.isInteger(toNumber(text)) && toNumber(text) >= 0),
    'Give a whole number of 0 or more, or leave it blank.',
  )
  .transform((text) => (text.trim() === '' ? null : toNumber(text)));

/** A value of a trait. */
export function requiredScore(trait: ScoredTrait & { name: string }) {
  return z
    .string()
    .superRefine((text, context) => {
      const problem = scoreProblem(trait, toNumber(text));
      if (problem !== null) context.addIssue({ code: 'custom', message: `${problem}.` });
    })
    .transform(toNumber);
}

export function optionalScore(trait: ScoredTrait & { name: string }) {
  return z
    .string()
    .superRefine((text, context) => {
      const problem = text.trim() === '' ? null : scoreProblem(trait, toNumber(text));
      if (problem !== null)
        context.addIssue({ code: 'custom', message: `${problem}, or leave it blank.` });
    })
    .transform((text) => (text.trim() === '' ? null : toNumber(text)));
}

export const optionalId = z.string().transform((text) => (text === '' ? null : text));

export const requiredId = (message: string) => z.string().min(1, message);

/** Leaves out the blanks, for a new record. */
export function given<T extends Record<string, unknown>>(
  values: T,
): { [K in keyof T]?: Exclude<T[K], null> } {
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null)) as {
    [K in keyof T]?: Exclude<T[K], null>;
  };
}
