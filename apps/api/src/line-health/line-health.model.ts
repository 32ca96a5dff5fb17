import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import { InbreedingBasis } from '../graphql/enums.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { FounderSourceModel } from '../kinship/founder-source.model.js';
import { LineModel } from '../shapes/line.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';

@ObjectType('FigureInput', { description: 'A number that went into a figure.' })
export class FigureInputModel {
  @Field(() => String, { description: 'What it counts or measures.' })
  name: string;

  @Field(() => Float, { description: 'The number.' })
  value: number;
}

@ObjectType('StockFigure', { description: 'A figure about a stock, with what it was made from.' })
export class StockFigureModel {
  @Field(() => Float, {
    nullable: true,
    description: 'The figure; null when the records give none, see `whyNone`.',
  })
  value: number | null;

  @Field(() => String, { nullable: true, description: 'Why there is no value.' })
  whyNone: string | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Standard error; null when it is exact for the pedigree recorded.',
  })
  standardError: number | null;

  @Field(() => [FigureInputModel], { description: 'What went in.' })
  inputs: FigureInputModel[];
}

@ObjectType('GenerationInbreeding', {
  description: 'F of the fish of a line of one generation.',
})
export class GenerationInbreedingModel {
  @Field(() => Int, { description: 'Longest line of descent from a founder, in generations.' })
  generation: number;

  @Field(() => Int, { description: 'Fish recorded.' })
  count: number;

  @Field(() => Float, { description: 'Mean F.' })
  mean: number;

  @Field(() => Float, { description: 'Lowest F.' })
  lowest: number;

  @Field(() => Float, { description: 'Highest F.' })
  highest: number;

  @Field(() => Int, {
    description:
      'How many of these F are not wholly known: with any, mean, lowest and highest are the least that they can be.',
  })
  notKnownCount: number;

  @Field(() => Int, { description: 'Fish with F above 0.' })
  inbred: number;

  @Field(() => Float, { description: 'Mean complete generation equivalents.' })
  meanEquivalents: number;
}

@ObjectType('GenerationPoint', { description: 'One fish in the plot of F by generation.' })
export class GenerationPointModel {
  @Field(() => NamedFishModel, { description: 'The fish.' })
  fish: NamedFishModel;

  @Field(() => Int, { description: 'Its generation.' })
  generation: number;

  @Field(() => Float, { description: 'Its F.' })
  inbreedingCoefficient: number;

  @Field(() => InbreedingBasis, { description: 'How far this F can be trusted.' })
  inbreedingBasis: InbreedingBasis;
}

@ObjectType('FounderStanding', { description: 'What a founder gave to the fish in use.' })
export class FounderStandingModel extends FounderSourceModel {
  @Field(() => Float, { description: "Expected share of the fish in use's genes." })
  contribution: number;

  @Field(() => Float, { description: 'Expected part of its genes that is still there.' })
  retention: number;

  @Field(() => Float, { description: 'Chance that at least one of its genes is still there.' })
  survival: number;

  @Field(() => Float, { description: 'Standard error of the retention; 0 when exact.' })
  standardError: number;
}

@ObjectType('AncestorStanding', { description: 'An ancestor by what it alone explains.' })
export class AncestorStandingModel extends FounderSourceModel {
  @Field(() => Float, {
    description: 'Share of the genes that came through it and through none listed before it.',
  })
  marginal: number;

  @Field(() => Float, { description: 'Share that came through it at all.' })
  total: number;
}

@ObjectType('GenerationShares', { description: "The founders' shares in one generation." })
export class GenerationSharesModel {
  @Field(() => Int, { description: 'Generation.' })
  generation: number;

  @Field(() => Int, { description: 'Fish recorded.' })
  count: number;

  @Field(() => [Float], {
    description: 'One a founder, in the order of `founders`; they sum to 1.',
  })
  shares: number[];
}

@ObjectType('SharesOverTime', { description: "How the founders' shares moved." })
export class SharesOverTimeModel {
  @Field(() => [FounderSourceModel], { description: 'Founders, by their share in the last.' })
  founders: FounderSourceModel[];

  @Field(() => [GenerationSharesModel], { description: 'Oldest generation first.' })
  generations: GenerationSharesModel[];
}

@ObjectType('EffectiveNumbers', {
  description: 'Effective numbers of the fish in use; each sees a loss that the others do not.',
})
export class EffectiveNumbersModel {
  @Field(() => StockFigureModel, { description: 'Effective founders, 1 / sum p².' })
  founders: StockFigureModel;

  @Field(() => StockFigureModel, { description: 'Effective ancestors (Boichard et al. 1997).' })
  ancestors: StockFigureModel;

  @Field(() => StockFigureModel, {
    description: 'Founder genome equivalents by retention. Not comparable with the next.',
  })
  genomesByRetention: StockFigureModel;

  @Field(() => StockFigureModel, {
    description: 'Genome equivalents by mean kinship. Not comparable with the one before.',
  })
  genomesByKinship: StockFigureModel;

  @Field(() => StockFigureModel, {
    description: "Effective size from each fish's own increase in F (Gutiérrez et al. 2009).",
  })
  sizeFromInbreeding: StockFigureModel;

  @Field(() => StockFigureModel, {
    description: 'Effective size from the rise of mean F over the generations of the line.',
  })
  sizeFromRate: StockFigureModel;

  @Field(() => StockFigureModel, { description: 'Effective size from sires and dams (Wright).' })
  sizeFromSexes: StockFigureModel;

  @Field(() => StockFigureModel, {
    description: 'Effective size from the spread of family sizes (Kimura & Crow 1963).',
  })
  sizeFromFamilies: StockFigureModel;
}

@ObjectType('UnequalShare', { description: 'One who contributes more than an equal part.' })
export class UnequalShareModel extends FounderSourceModel {
  @Field(() => Float, { description: "Share of the fish in use's genes." })
  share: number;

  @Field(() => Float, { description: 'The share each would have, were all of its kind equal.' })
  equalShare: number;

  @Field(() => Int, { description: 'Young in use; 0 for founders.' })
  young: number;
}

@ObjectType('OverContributors', { description: 'Who contributes more than an equal part.' })
export class OverContributorsModel {
  @Field(() => [UnequalShareModel], { description: 'Founders.' })
  founders: UnequalShareModel[];

  @Field(() => [UnequalShareModel], { description: 'Sires of the fish in use.' })
  sires: UnequalShareModel[];

  @Field(() => [UnequalShareModel], { description: 'Dams of the fish in use.' })
  dams: UnequalShareModel[];
}

@ObjectType('FounderCarrier', { description: 'A fish in use that carries a rare founder.' })
export class FounderCarrierModel {
  @Field(() => NamedFishModel, { description: 'The fish.' })
  fish: NamedFishModel;

  @Field(() => Float, { description: 'Expected share of its genes from that founder.' })
  share: number;
}

@ObjectType('RareFounder', { description: 'A founder with a small part, and who carries it.' })
export class RareFounderModel extends FounderSourceModel {
  @Field(() => Float, { description: "Its share of the fish in use's genes." })
  contribution: number;

  @Field(() => [FounderCarrierModel], { description: 'Carriers, the largest share first.' })
  carriers: FounderCarrierModel[];

  @Field(() => Int, {
    description: 'How many that are not listed carry as much as the last one listed.',
  })
  moreAsMuch: number;
}

@ObjectType('FishKinship', { description: 'How near a fish in use is to all in use.' })
export class FishKinshipModel {
  @Field(() => NamedFishModel, { description: 'The fish.' })
  fish: NamedFishModel;

  @Field(() => Float, {
    description: 'Mean coancestry with all fish in use, itself included.',
  })
  meanKinship: number;

  @Field(() => Float, { description: 'Its own F.' })
  inbreedingCoefficient: number;

  @Field(() => InbreedingBasis, { description: 'How far this F can be trusted.' })
  inbreedingBasis: InbreedingBasis;
}

@ObjectType('LineFigures', { description: 'The figures of a line.' })
export class LineFiguresModel {
  @Field(() => StockFigureModel, { description: 'Mean F of the fish in use.' })
  inbreeding: StockFigureModel;

  @Field(() => Float, { description: 'Lowest F of a fish in use.' })
  lowestInbreeding: number;

  @Field(() => Float, { description: 'Highest F of a fish in use.' })
  highestInbreeding: number;

  @Field(() => StockFigureModel, {
    description:
      'Mean coancestry of males with females in use: the mean F of their young, were each male as likely to mate with each female.',
  })
  maleByFemale: StockFigureModel;

  @Field(() => StockFigureModel, {
    description:
      'Mean coancestry of the fish in use with each other, their own sex and themselves included. Not an F of young.',
  })
  meanKinship: StockFigureModel;

  @Field(() => StockFigureModel, {
    description: 'Mean complete generation equivalents of the fish in use.',
  })
  completeness: StockFigureModel;

  @Field(() => [Float], {
    description: 'Known share of parents, grandparents, great-grandparents and so on.',
  })
  completenessByGeneration: number[];

  @Field(() => StockFigureModel, {
    description: "Parents' mean age in days at the hatching of young of the line that bred.",
  })
  generationInterval: StockFigureModel;

  @Field(() => [GenerationInbreedingModel], { description: 'F of all fish recorded in the line.' })
  byGeneration: GenerationInbreedingModel[];

  @Field(() => [GenerationPointModel], {
    nullable: true,
    description: 'Every fish of the line, for the plot; null when there are more than 4,000.',
  })
  points: GenerationPointModel[] | null;

  @Field(() => StockFigureModel, { description: 'Rate of inbreeding a generation.' })
  rate: StockFigureModel;

  @Field(() => SharesOverTimeModel, { description: "Founders' shares, generation by generation." })
  sharesOverTime: SharesOverTimeModel;

  @Field(() => [FounderStandingModel], { description: 'Founders, the largest share first.' })
  founders: FounderStandingModel[];

  @Field(() => [AncestorStandingModel], {
    description:
      'The 20 ancestors that explain most, the largest first; what the last `total` lacks of 1 is explained by others.',
  })
  ancestors: AncestorStandingModel[];

  @Field(() => EffectiveNumbersModel, { description: 'Effective numbers and sizes.' })
  effective: EffectiveNumbersModel;

  @Field(() => OverContributorsModel, { description: 'Who contributes more than an equal part.' })
  overContributors: OverContributorsModel;

  @Field(() => [RareFounderModel], { description: 'The rarest founders and their carriers.' })
  rarestFounders: RareFounderModel[];

  @Field(() => [FishKinshipModel], {
    description: 'Fish in use, the least related to the rest first.',
  })
  kinship: FishKinshipModel[];
}

@ObjectType('LineHealth', { description: "How a line stands: its fish's kinship in figures." })
export class LineHealthModel {
  @Field(() => LineModel, { description: 'The line.' })
  line: LineModel;

  @Field(() => Int, { description: 'Fish recorded in it, without withdrawn ones.' })
  fishCount: number;

  @Field(() => Int, { description: 'Fish that the figures are about.' })
  inUseCount: number;

  @Field(() => String, { nullable: true, description: 'Why there are no figures.' })
  whyNone: string | null;

  @Field(() => LineFiguresModel, {
    nullable: true,
    description: 'The figures; null with no fish in use, and while they are waited for.',
  })
  figures: LineFiguresModel | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation whose figures are waited for, for a line of many fish.',
  })
  waiting: ComputationModel | null;
}
