import type { BroodSizeInput as Wanted } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { besideTheLoop } from '../jobs/beside.js';
import type { BroodSizeInput, FitInput, FitResultModel } from '../shapes/heredity.model.js';
import { broodSizeOf, broodSizeProgram, fitOf, fitProgram } from './count-programs.js';

/** What a brood of two or three loci takes is answered at once; a thread would cost more than the work. */
const AT_ONCE = { classes: 9, fish: 1_000, wanted: 1_000, shares: 9 };

/** Counts of a brood against an expectation, and how large a brood must be. */
@Injectable()
export class CountsService {
  /** @throws HeredityError as `goodnessOfFit`. */
  fit({ observed }: FitInput): FitResultModel | Promise<FitResultModel> {
    const fish = observed.reduce((sum, one) => sum + one.observed, 0);
    const short = observed.length <= AT_ONCE.classes && fish <= AT_ONCE.fish;
    if (short) return fitOf(observed);
    // Passed between threads as plain values.
    return besideTheLoop(
      fitProgram,
      observed.map((one) => ({ ...one })),
    );
  }

  /** @throws HeredityError as `broodSizeFor`. */
  broodSize(input: BroodSizeInput): number | Promise<number> {
    const { fraction, shares, atLeast, certainty, survival } = input;
    const possible = shares?.map((one) => ({ weight: one.weight, probability: one.fraction }));
    const wanted: Wanted = { probability: possible ?? fraction, atLeast, certainty, survival };
    const short = atLeast <= AT_ONCE.wanted && (possible ?? []).length <= AT_ONCE.shares;
    return short ? broodSizeOf(wanted) : besideTheLoop(broodSizeProgram, wanted);
  }
}
