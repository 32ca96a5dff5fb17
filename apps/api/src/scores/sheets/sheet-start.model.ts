import { Field, Int, ObjectType } from '@nestjs/graphql';
import { FaultSeverity } from '../../stock/rows/sheet-content.js';
import type { SheetStart } from './sheet-starts.js';

@ObjectType('SheetStartFault', { description: 'A fault that a beginning names.' })
export class SheetStartFaultModel {
  @Field(() => String, { description: 'The fault.' })
  name: string;

  @Field(() => FaultSeverity, { description: 'A first guess at its class, to be changed.' })
  severity: FaultSeverity;
}

@ObjectType('SheetStart', {
  description: 'A beginning for a sheet: common practice, without weights, levels or points.',
})
export class SheetStartModel {
  @Field(() => String, { description: 'Key to start with.' })
  key: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => String, { description: 'What it looks at.' })
  description: string;

  @Field(() => Int, { description: 'Youngest age, in days.' })
  fromAgeDays: number;

  @Field(() => Int, { description: 'Oldest age, in days.' })
  toAgeDays: number;

  @Field(() => [String], { description: 'Names of its traits, in order.' })
  traitNames: string[];

  @Field(() => [SheetStartFaultModel], { description: 'Its faults.' })
  faults: SheetStartFaultModel[];
}

export const toStart = ({ traits, faults, ...start }: SheetStart): SheetStartModel => ({
  ...start,
  traitNames: traits.map(({ name }) => name),
  faults: faults.map((fault) => ({ ...fault })),
});
