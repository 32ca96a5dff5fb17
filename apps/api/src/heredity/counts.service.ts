import { broodSizeFor, goodnessOfFit } from '@linewright/heredity';
import { Injectable } from '@nestjs/common';
import { besideTheLoop } from '../jobs/beside.js';
import { toFitResult } from '../shapes/heredity.mapper.js';
import type { BroodSizeInput, FitInput, FitResultModel } from '../shapes/heredity.model.js';
import { broodSizeProgram, fitProgram } from './count-programs.js';

/** Classes times fish counted: an ordinary brood, whose outcomes are gone through in a moment. More go to a thread. */
const MOST_COUNTED_AT_ONCE = 2_000;
/** Possible shares times fish wanted; the same. */
const MOST_WANTED_AT_ONCE = 1_000;

/** What counts of fish say of an expectation, and how many have to be counted. */
@Injectable()
export class CountsService {
  /** @throws HeredityError of counts and shares that cannot be tested; RequestError `WORK_TOO_LONG` */
  async fit({ observed }: FitInput): Promise<FitResultModel> {
    const counts = observed.map((one) => one.observed);
    const fractions = observed.map((one) => one.fraction);
    const labels = observed.map((one) => one.name);
    const work = counts.length * counts.reduce((sum, one) => sum + one, 0);
    return toFitResult(
      work > MOST_COUNTED_AT_ONCE
        ? await besideTheLoop(fitProgram, counts, fractions, { labels })
        : goodnessOfFit(counts, fractions, { labels }),
    );
  }

  /** @throws HeredityError of shares that cannot be read, or a number that no brood reaches; RequestError `WORK_TOO_LONG` */
  async broodSize(input: BroodSizeInput): Promise<number> {
    const { fraction, shares, atLeast, certainty, survival } = input;
    const possible = shares?.map((one) => ({ weight: one.weight, probability: one.fraction }));
    const wanted = { probability: possible ?? fraction, atLeast, certainty, survival };
    return (possible?.length ?? 1) * atLeast > MOST_WANTED_AT_ONCE
      ? besideTheLoop(broodSizeProgram, wanted)
      : broodSizeFor(wanted);
  }
}
