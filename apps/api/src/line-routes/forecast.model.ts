import { Field, Float, ID, ObjectType } from '@nestjs/graphql';
import { Count, Figure } from '../graphql/figure-fields.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { LineModel } from '../shapes/line.model.js';

@ObjectType('ForecastBand', { description: 'The range that holds so many of the simulated lines.' })
export class ForecastBandModel {
  @Figure('Share of the lines.')
  probability: number;

  @Figure('Lower end.')
  low: number;

  @Figure('Upper end.')
  high: number;
}

@ObjectType('ForecastFan', { description: 'A simulated figure of a generation.' })
export class ForecastFanModel {
  @Figure('Mean.')
  mean: number;

  @Figure('Standard error of the mean.')
  standardError: number;

  @Figure('Half of the lines lie below.')
  median: number;

  @Field(() => [ForecastBandModel], { description: 'Bands of 50, 80 and 95 %.' })
  bands: ForecastBandModel[];
}

@ObjectType('TraitForecast', { description: 'A trait in a generation.' })
export class TraitForecastModel {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => ForecastFanModel, {
    description: 'Mean of what is inherited, in the unit of the trait.',
  })
  mean: ForecastFanModel;
}

@ObjectType('AlleleForecast', { description: 'An allele in a generation.' })
export class AlleleForecastModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Name of the locus.' })
  locusName: string;

  @Field(() => String, { description: 'The allele, as it is written.' })
  symbol: string;

  @Figure('Chance that any fish of the generation carries it.')
  stillThere: number;

  @Figure('Lower end of the 95 % interval of that chance.')
  low: number;

  @Figure('Upper end of the 95 % interval of that chance.')
  high: number;
}

@ObjectType('ForecastGeneration', { description: 'A generation of a forecast.' })
export class ForecastGenerationModel {
  @Count('0: the fish of now.')
  generation: number;

  @Field(() => ForecastFanModel, { description: 'Mean F.' })
  inbreeding: ForecastFanModel;

  @Field(() => ForecastFanModel, { description: 'Mean kinship, each fish with itself included.' })
  kinship: ForecastFanModel;

  @Field(() => [TraitForecastModel], { description: 'Traits that are wanted; at most 50.' })
  traits: TraitForecastModel[];

  @Field(() => [AlleleForecastModel], {
    description: 'Alleles that wanted looks need; at most 60.',
  })
  alleles: AlleleForecastModel[];
}

@ObjectType('StrategyForecast', { description: 'A line as it is bred in one way.' })
export class StrategyForecastModel {
  @Count('Simulated lines.')
  simulations: number;

  @Count('Broods a generation.')
  broods: number;

  @Field(() => [ForecastGenerationModel], { description: 'From the fish of now on; at most 11.' })
  generations: ForecastGenerationModel[];

  @Field(() => ForecastFanModel, {
    nullable: true,
    description: 'Effective size by the rise of kinship; null where kinship does not rise.',
  })
  effectiveSize: ForecastFanModel | null;
}

@ObjectType('BredSoFar', { description: 'What the last generation of a line came from.' })
export class BredSoFarModel {
  @Count('Sires.')
  sires: number;

  @Count('Dams.')
  dams: number;

  @Count('Pairs.')
  broods: number;
}

@ObjectType('LineForecast', { description: 'Where a line goes over some generations.' })
export class LineForecastModel {
  @Field(() => LineModel, { description: 'The line.' })
  line: LineModel;

  @Field(() => String, { nullable: true, description: 'Why there is no forecast.' })
  whyNone: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'Figures that it waits for.',
  })
  waiting: ComputationModel | null;

  @Field(() => StrategyForecastModel, {
    nullable: true,
    description: 'By contributions under the rise of kinship allowed.',
  })
  plan: StrategyForecastModel | null;

  @Field(() => StrategyForecastModel, {
    nullable: true,
    description: 'As many sires and dams as the last generation had, the best by score.',
  })
  soFar: StrategyForecastModel | null;

  @Field(() => BredSoFarModel, {
    nullable: true,
    description: 'What `soFar` goes on with; null where no brood has both parents on record.',
  })
  bred: BredSoFarModel | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Rise of mean kinship a generation that the plan allows; null: no limit.',
  })
  kinshipRise: number | null;

  @Field(() => [String], {
    description: 'What is not counted, or was assumed, in sentences; at most 60.',
  })
  leftOut: string[];
}
