import { Equations } from '../mixed/equations.js';
import { animalModel, type AnimalModel, type AnimalScores } from './animal-model.js';

/** A model with its equations and, once it is asked for, their order of elimination. */
export interface WrittenModel {
  readonly animal: AnimalModel;
  readonly equations: Equations;
}

/**
 * Writes the equations of scores, once for all that is worked out from the same scores.
 *
 * Cost: inbreeding of the pedigree, else linear. @throws MeritError as {@link animalModel}; MERIT_TOO_LARGE for thousands of fixed levels.
 */
export function writtenModel(scores: AnimalScores): WrittenModel {
  const animal = animalModel(scores);
  return { animal, equations: new Equations(animal.model) };
}
