import { meanKinship } from '@linewright/kinship';
import { responseByGeneration, type SolvedModel } from '@linewright/merit';
import { generationDepth } from '@linewright/pedigree';
import type { TrendAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { meanLooks } from './scores-of-task.js';

/** Is each line moving? By the equations at one set of variances, with the F and kinship that each generation has. */
export const trendsOf = (
  task: MeritTask,
  solved: SolvedModel,
  heritability: number,
): TrendAnswer[] => {
  const { pedigree } = solved.animal;
  const depth = generationDepth(pedigree);
  const scores = meanLooks(task);
  return task.lines.flatMap(({ lineId, fish }): TrendAnswer[] => {
    const generation = new Int32Array(pedigree.size).fill(-1);
    for (const i of fish) generation[i] = depth[i]!;
    const { generations, realisedHeritability } = responseByGeneration(
      solved,
      generation,
      scores,
      heritability,
    );
    return [
      {
        lineId,
        realisedHeritability,
        generations: generations.map(
          ({ meanBreedingValue, meanBreedingValueError, ...figures }) => ({
            ...figures,
            meanValue: meanBreedingValue,
            meanValueError: meanBreedingValueError,
            meanKinship: kinshipOf(
              solved,
              fish.filter((i) => depth[i] === figures.generation),
            ),
          }),
        ),
      },
    ];
  });
};

const kinshipOf = ({ animal: { pedigree } }: SolvedModel, fish: Int32Array): number => {
  const kinship = meanKinship(pedigree, fish);
  return kinship.reduce((sum, k) => sum + k, 0) / kinship.length;
};
