import { Field, Float, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { correctionOf } from '../graphql/correction.js';
import { SenderId } from '../graphql/sent.js';
import { LocusModel } from '../shapes/heredity.model.js';

@InputType({ description: 'An allele of a locus of your own.' })
export class OwnAlleleInput {
  @Field(() => String, { description: 'How it is written in a genotype, such as `Mo`.' })
  symbol: string;

  @Field(() => String, { description: 'What it does.' })
  name: string;
}

@InputType({ description: 'What fish of a genotype look like; the first line that fits counts.' })
export class OwnLookInput {
  @Field(() => String, {
    description: 'Two alleles by symbol; `Mo/-` for at least one, `-/-` for every other.',
  })
  genotype: string;

  @Field(() => String, { description: 'What is seen, in words.' })
  phenotype: string;

  @Field(() => String, {
    nullable: true,
    description:
      'Penetrance: the share of such fish that show it, such as 9/10; all when absent. Give further lines with the same genotype for the rest.',
  })
  share?: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Share of such eggs that live to be scored, such as 0 for a lethal genotype.',
  })
  survival?: string | null;
}

@InputType({ description: 'A locus of your own.' })
export class DefineLocusInput {
  @SenderId()
  id?: string;

  @Field(() => String, {
    description: 'Short name used in records: small letters, digits, hyphens.',
  })
  locusId: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => [OwnAlleleInput], { description: 'Its alleles, most dominant first; two or more.' })
  alleles: OwnAlleleInput[];

  @Field(() => [OwnLookInput], { description: 'Looks by genotype.' })
  looks: OwnLookInput[];

  @Field(() => Int, { nullable: true, description: 'Age from which it is visible, in days.' })
  scorableFromDays?: number | null;

  @Field(() => String, { nullable: true, description: 'What it rests on, and anything else.' })
  note?: string | null;
}

@InputType({ description: 'The next version of a locus of your own; absent fields stay.' })
export class ReviseLocusInput extends correctionOf(DefineLocusInput, 'locus record', ['locusId']) {}

@ObjectType('LocusVersion', { description: 'A version that a locus of your own has had.' })
export class LocusVersionModel {
  @Field(() => Int, { description: 'Version, counted from 1.' })
  version: number;

  @Field(() => Date, { description: 'When it was made.' })
  at: Date;

  @Field(() => String, { description: 'Who made it.' })
  by: string;

  @Field(() => LocusModel, { description: 'The locus as it then was.' })
  locus: LocusModel;
}

@ObjectType('AlleleFrequency', { description: 'How common an allele is among founders.' })
export class AlleleFrequencyModel {
  @Field(() => String, { description: 'Id of the allele.' })
  alleleId: string;

  @Field(() => Float, { description: 'Its frequency, 0 to 1.' })
  frequency: number;
}

@ObjectType('LocusSetting', {
  description: 'What is assumed about a locus in a line, until it is set otherwise.',
})
export class LocusSettingModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => ID, { nullable: true, description: 'Line; null for every other fish.' })
  lineId: string | null;

  @Field(() => [AlleleFrequencyModel], {
    description: 'Allele frequencies of its founders; empty when all are taken as equally common.',
  })
  frequencies: AlleleFrequencyModel[];

  @Field(() => Float, {
    nullable: true,
    description: 'Share of fish put into a wrong class; null for the default of 0.01.',
  })
  misScoring: number | null;

  @Field(() => Int, { description: 'Raised by one at each change.' })
  revision: number;
}

@InputType({ description: 'How common an allele is among founders.' })
export class AlleleFrequencyInput {
  @Field(() => String, { description: 'Allele, by id or symbol.' })
  alleleId: string;

  @Field(() => Float, { description: 'Its frequency, 0 to 1.' })
  frequency: number;
}

@InputType({
  description: 'Sets what is assumed about a locus in a line; replaces what was.',
})
export class SetLocusSettingInput {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => ID, { nullable: true, description: 'Line; absent for every other fish.' })
  lineId?: string | null;

  @Field(() => [AlleleFrequencyInput], {
    nullable: true,
    description: 'Of every allele, summing to 1; absent: equally common.',
  })
  frequencies?: AlleleFrequencyInput[] | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Share of fish put into a wrong class, 0 to 0.5; absent: 0.01.',
  })
  misScoring?: number | null;
}
