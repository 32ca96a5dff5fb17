import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';
import { Disposition, Sex, InbreedingBasis } from '../graphql/enums.js';

@ObjectType('InbreedingPath', {
  description: 'One path from the sire through a common ancestor to the dam.',
})
export class InbreedingPathModel {
  @Field(() => NamedFishModel, { description: 'The common ancestor.' })
  ancestor: NamedFishModel;

  @Field(() => [NamedFishModel], { description: 'All fish along it, sire first, dam last.' })
  fish: NamedFishModel[];

  @Field(() => Int, {
    description: 'Generations from the sire up to the ancestor.',
  })
  sireSteps: number;

  @Field(() => Int, { description: 'Generations from the dam up to the ancestor.' })
  damSteps: number;

  @Field(() => Float, { description: "The ancestor's own F." })
  ancestorInbreeding: number;

  @Field(() => InbreedingBasis, { description: 'How far that F can be trusted.' })
  ancestorBasis: InbreedingBasis;

  @Field(() => Float, {
    description: "What it adds to F: (1/2)^(steps + 1) times (1 + the ancestor's F).",
  })
  contribution: number;
}

@ObjectType('AncestorShare', { description: 'What one common ancestor adds to F.' })
export class AncestorShareModel {
  @Field(() => NamedFishModel, { description: 'The ancestor.' })
  ancestor: NamedFishModel;

  @Field(() => Float, {
    nullable: true,
    description: 'All paths that turn at it, listed or not; null when they are beyond counting.',
  })
  pathCount: number | null;

  @Field(() => Float, { description: 'What they add together.' })
  contribution: number;
}

@ObjectType('InbreedingExplanation', { description: 'Where an inbreeding coefficient comes from.' })
export class InbreedingExplanationModel {
  @Field(() => Float, { description: 'F.' })
  coefficient: number;

  @Field(() => Boolean, { description: 'True when every path is listed.' })
  complete: boolean;

  @Field(() => Float, {
    nullable: true,
    description: 'Number of paths, when known: a whole number that may be too large for Int.',
  })
  pathCount: number | null;

  @Field(() => Int, { description: 'Paths listed.' })
  listedCount: number;

  @Field(() => Float, { description: 'Share of F that the listed paths make.' })
  explainedShare: number;

  @Field(() => [InbreedingPathModel], { description: 'The paths, largest contribution first.' })
  paths: InbreedingPathModel[];

  @Field(() => [AncestorShareModel], {
    description:
      'The same by common ancestor, over all paths, listed or not; as many ancestors as paths were asked for.',
  })
  byAncestor: AncestorShareModel[];

  @Field(() => Int, { description: 'Common ancestors, listed or not.' })
  ancestorCount: number;
}

@ObjectType('PedigreeFish', { description: 'A fish as a pedigree drawing needs it.' })
export class PedigreeFishModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Tag.' })
  tag: string;

  @Field(() => Sex, { description: 'Sex.' })
  sex: Sex;

  @Field(() => ID, { nullable: true, description: 'Sire, when in the slice.' })
  sireId: string | null;

  @Field(() => ID, { nullable: true, description: 'Dam, when in the slice.' })
  damId: string | null;

  @Field(() => ID, { nullable: true, description: 'Its spawn.' })
  spawnId: string | null;

  @Field(() => String, { nullable: true, description: 'Tag of its spawn.' })
  spawnTag: string | null;

  @Field(() => ID, {
    nullable: true,
    description:
      'For a parent that nobody knows: the spawn whose parent it is; null for a recorded fish.',
  })
  unknownParentOf?: string | null;

  @Field(() => Boolean, {
    description: 'False for a fish that has no page for whoever asks: not shared, or not recorded.',
  })
  recordShown: boolean;

  @Field(() => DateScalar, { nullable: true, description: 'Day of hatching.' })
  hatchDate: string | null;

  @Field(() => String, { nullable: true, description: 'Code of its line.' })
  lineCode: string | null;

  @Field(() => Disposition, { description: 'Decision.' })
  disposition: Disposition;

  @Field(() => Float, { description: 'F.' })
  inbreedingCoefficient: number;

  @Field(() => InbreedingBasis, { description: 'How far this F can be trusted.' })
  inbreedingBasis: InbreedingBasis;
}

@ObjectType('PedigreeSlice', { description: 'Part of the pedigree around a fish.' })
export class PedigreeSliceModel {
  @Field(() => ID, { description: 'The fish asked about.' })
  focusId: string;

  @Field(() => [PedigreeFishModel], { description: 'Every fish once, parents first.' })
  fish: PedigreeFishModel[];

  @Field(() => Boolean, {
    description: 'True when more belong to it than were asked for.',
  })
  truncated: boolean;
}
