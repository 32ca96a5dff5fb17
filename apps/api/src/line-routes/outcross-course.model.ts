import { Field, ID, ObjectType } from '@nestjs/graphql';
import { Count, CountOrNone, Figure } from '../graphql/figure-fields.js';

@ObjectType('OutcrossTrait', { description: 'A trait of the young of one generation.' })
export class OutcrossTraitModel {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Figure('Expected mean of what is inherited, in the unit of the trait.')
  mean: number;

  @Figure('Its standard error, from what is not known of the fish.')
  standardError: number;
}

@ObjectType('OutcrossAllele', { description: 'A wanted allele in one generation.' })
export class OutcrossAlleleModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Allele by meaning.' })
  alleleId: string;

  @Figure('Expected share among the alleles of the brood.')
  frequency: number;

  @Figure('Chance that a young carries it.')
  carried: number;

  @Figure('Chance that a young has it twice, as a recessive look needs.')
  twice: number;
}

@ObjectType('OutcrossGeneration', {
  description: 'What the young of one generation are expected to be when none are chosen among.',
})
export class OutcrossGenerationModel {
  @Count('1: the cross.')
  generation: number;

  @Figure('F of the brood.')
  inbreeding: number;

  @Figure('Share of the blood that is the line’s.')
  lineShare: number;

  @Field(() => [OutcrossTraitModel], { description: 'Traits that are wanted; at most 50.' })
  traits: OutcrossTraitModel[];

  @Field(() => [OutcrossAlleleModel], {
    description: 'Alleles that wanted looks need; at most 60.',
  })
  alleles: OutcrossAlleleModel[];
}

@ObjectType('OutcrossTraitReturn', {
  description: 'How far a trait falls behind the line, and when it is back.',
})
export class OutcrossTraitReturnModel {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Figure('Mean of the fish of the line, in the unit of the trait.')
  lineMean: number;

  @Figure('What is believed of the partner.')
  partner: number;

  @Figure('By how much the young of the cross are worse than the line; below 0: better.')
  lost: number;

  @CountOrNone(
    'Generations after the cross from which on the young are no more than a tenth of the spread behind; null: not within ten.',
  )
  backAfter: number | null;
}

@ObjectType('OutcrossAlleleStart', { description: 'A wanted allele before the cross.' })
export class OutcrossAlleleStartModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Allele by meaning.' })
  alleleId: string;

  @Field(() => String, { description: 'Name of the locus.' })
  locusName: string;

  @Field(() => String, { description: 'The allele, as it is written.' })
  symbol: string;

  @Figure('Expected share among the alleles of the fish of the line.')
  inLine: number;

  @Figure('Expected share in the partner.')
  inPartner: number;
}

@ObjectType('OutcrossCourse', { description: 'A cross to a partner and what follows it.' })
export class OutcrossCourseModel {
  @Field(() => [OutcrossGenerationModel], { description: 'The cross first; at most 6.' })
  generations: OutcrossGenerationModel[];

  @Field(() => [OutcrossTraitReturnModel], { description: 'At most 50.' })
  traits: OutcrossTraitReturnModel[];

  @Field(() => [OutcrossAlleleStartModel], { description: 'At most 60.' })
  alleles: OutcrossAlleleStartModel[];
}
