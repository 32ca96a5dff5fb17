import { type BroodSizeInput, broodSizeFor, goodnessOfFit } from '@linewright/heredity';
import { requestProgram } from '../jobs/request-programs.js';
import { toFitResult } from '../shapes/heredity.mapper.js';
import type { FitInput, FitResultModel } from '../shapes/heredity.model.js';

/** Tests counts against what was expected of them. */
export const fitOf = (observed: FitInput['observed']): FitResultModel =>
  toFitResult(
    goodnessOfFit(
      observed.map((one) => one.observed),
      observed.map((one) => one.fraction),
      { labels: observed.map((one) => one.name) },
    ),
  );

export const fitProgram = requestProgram('fitOf', fitOf);

export const broodSizeOf = (wanted: BroodSizeInput): number => broodSizeFor(wanted);

export const broodSizeProgram = requestProgram('broodSizeOf', broodSizeOf);
