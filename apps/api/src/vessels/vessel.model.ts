import { Field, Float, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { correctionOf } from '../graphql/correction.js';
import { IdSentOnce } from '../graphql/sent.js';
import { FishModel } from '../shapes/fish.model.js';
import { RecordModel } from '../shapes/record.model.js';
import { SpawnModel } from '../shapes/spawn.model.js';
import { VesselCompany, VesselKind } from './vessel.enums.js';

@ObjectType('Vessel', { description: 'A jar, tank or tub.' })
export class VesselModel extends RecordModel {
  @Field(() => String, {
    description: 'What stands on it: one among those in use, whatever the case and spaces.',
  })
  code: string;

  @Field(() => VesselKind, { description: 'Jar, tank, tub or cone.' })
  kind: VesselKind;

  @Field(() => Float, { nullable: true, description: 'What it holds, litres.' })
  litres: number | null;

  @Field(() => String, { nullable: true, description: 'The rack it stands on.' })
  rack: string | null;

  @Field(() => Int, { nullable: true, description: 'Shelf of the rack, 1 the uppermost.' })
  shelf: number | null;

  @Field(() => Int, { nullable: true, description: 'Position on the shelf, 1 the leftmost.' })
  position: number | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => ID, { description: 'Whose house it stands in.' })
  personId: string;
}

@ObjectType('VesselStay', { description: 'That a fish or a spawn was in a vessel.' })
export class VesselStayModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => Date, { description: 'When it came.' })
  cameAt: Date;

  @Field(() => Date, { nullable: true, description: 'When it was moved away; null while not.' })
  leftAt: Date | null;

  @Field(() => VesselCompany, { nullable: true, description: 'Why it was put to others.' })
  company: VesselCompany | null;

  @Field(() => String, { description: 'Who moved it there.' })
  byName: string;

  @Field(() => FishModel, { nullable: true, description: 'The fish; null for a spawn.' })
  fish?: FishModel | null;

  @Field(() => SpawnModel, { nullable: true, description: 'The spawn; null for a fish.' })
  spawn?: SpawnModel | null;

  @Field(() => VesselModel, { description: 'The vessel.' })
  vessel?: VesselModel;

  /** Loaded as `vessel`, `fish` and `spawn`. */
  vesselId: string;
  fishId: string | null;
  spawnId: string | null;
}

@ObjectType('VesselConnection', { description: 'One page of vessels.' })
export class VesselConnectionModel extends connectionOf(VesselModel, 'Vessel', 'vessels') {}

@ObjectType('VesselStayConnection', { description: 'One page of stays in vessels.' })
export class VesselStayConnectionModel extends connectionOf(
  VesselStayModel,
  'VesselStay',
  'stays',
) {}

@ObjectType('ScannedCode', { description: 'What a code on a label, or one typed, stands for.' })
export class ScannedCodeModel {
  @Field(() => VesselModel, { nullable: true, description: 'The vessel that bears it.' })
  vessel: VesselModel | null;

  @Field(() => FishModel, { nullable: true, description: 'The fish whose label it is.' })
  fish: FishModel | null;

  @Field(() => Boolean, { description: 'True for a label made in another house.' })
  ofAnotherHouse: boolean;

  @Field(() => String, { nullable: true, description: 'Whose house that is, where it is known.' })
  houseName: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'A code that no vessel here bears: one can be made with it.',
  })
  unknownCode: string | null;
}

@InputType({ description: 'A new vessel.' })
export class CreateVesselInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => String, { description: 'What stands on it.' })
  code: string;

  @Field(() => VesselKind, { description: 'Jar, tank, tub or cone.' })
  kind: VesselKind;

  @Field(() => Float, { nullable: true, description: 'What it holds, litres.' })
  litres?: number | null;

  @Field(() => String, { nullable: true, description: 'The rack it stands on.' })
  rack?: string | null;

  @Field(() => Int, { nullable: true, description: 'Shelf of the rack, 1 the uppermost.' })
  shelf?: number | null;

  @Field(() => Int, { nullable: true, description: 'Position on the shelf, 1 the leftmost.' })
  position?: number | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({ description: 'Corrects a vessel.' })
export class CorrectVesselInput extends correctionOf(CreateVesselInput, 'vessel') {}

@InputType({ description: 'Fish and spawns that go into a vessel, or out of the one they are in.' })
export class MoveToVesselInput {
  @Field(() => ID, { nullable: true, description: 'The vessel; null takes them out.' })
  vesselId?: string | null;

  @Field(() => [ID], { defaultValue: [], description: 'The fish.' })
  fishIds: string[];

  @Field(() => [ID], { defaultValue: [], description: 'The spawns.' })
  spawnIds: string[];

  @Field(() => VesselCompany, {
    nullable: true,
    description:
      'Why they are to be with others; without it more than one in a vessel are refused with VESSEL_OCCUPIED.',
  })
  company?: VesselCompany | null;
}
