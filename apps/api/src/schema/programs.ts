import { rankTestMatings } from '@linewright/heredity';
import { demoScenario } from '@linewright/seed';
import { crossOf } from '../heredity/cross-of.js';
import { cards } from '../print/cards.js';
import { jarLabels } from '../print/jar-label.js';
import { readShareFile } from '../sharing/share-file.js';

/** What a request may have worked out beside the event loop. Arguments and answers can pass between threads. */
export const programs = { cards, crossOf, demoScenario, jarLabels, rankTestMatings, readShareFile };

export type Programs = typeof programs;

export interface RequestTask {
  readonly program: keyof Programs;
  readonly given: readonly unknown[];
}

export const runProgram = ({ program, given }: RequestTask): unknown =>
  (programs[program] as (...all: readonly unknown[]) => unknown)(...given);
