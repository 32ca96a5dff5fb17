import {
  Args,
  Context,
  ID,
  Mutation,
  Parent,
  Query,
  ResolveField,
  Resolver,
} from '@nestjs/graphql';
import { CurrentPerson } from '../accounts/session.guard.js';
import { mapPage } from '../graphql/connection.js';
import { After, First } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { WithdrawInput } from '../graphql/withdraw.input.js';
import { VesselLoader } from '../stock/vessel.loader.js';
import { MovesService } from './moves.service.js';
import { ScannedService } from './scanned.service.js';
import { toStay, toVessel } from './vessel.mapper.js';
import {
  CorrectVesselInput,
  CreateVesselInput,
  MoveToVesselInput,
  ScannedCodeModel,
  VesselConnectionModel,
  VesselModel,
  VesselStayConnectionModel,
  VesselStayModel,
} from './vessel.model.js';
import { VesselsService } from './vessels.service.js';

@Resolver(() => VesselModel)
export class VesselsResolver {
  constructor(
    private readonly service: VesselsService,
    private readonly moves: MovesService,
    private readonly scanned: ScannedService,
    private readonly loader: VesselLoader,
  ) {}

  @Query(() => VesselConnectionModel, {
    description: 'Your vessels in the order in which they stand, a page at a time.',
  })
  async vessels(
    @CurrentPerson() person: SignedInPerson,
    @Args('includeWithdrawn', {
      ...{ type: () => Boolean, nullable: true, defaultValue: false },
      description: 'Those no longer in use too.',
    })
    includeWithdrawn: boolean,
    @First() first: number,
    @After() after: string | null,
  ): Promise<VesselConnectionModel> {
    const page = await this.service.page(person, includeWithdrawn, first, after ?? undefined);
    return mapPage(page, toVessel);
  }

  @Query(() => VesselModel, { description: 'One vessel.' })
  async vessel(
    @Args('id', { type: () => ID, description: 'Which.' }) id: string,
  ): Promise<VesselModel> {
    return toVessel(await this.service.find(id));
  }

  @Query(() => ScannedCodeModel, {
    description: 'What a label that was scanned, or a code that was typed, stands for.',
  })
  scannedCode(
    @Args('text', { type: () => String, description: 'What was read or typed.' }) text: string,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<ScannedCodeModel> {
    return this.scanned.read(text, person);
  }

  @Query(() => VesselStayConnectionModel, {
    description:
      'Who was in a vessel, or where a fish or a spawn was, the latest first; name one of the three.',
  })
  async vesselStays(
    @Args('vesselId', { type: () => ID, nullable: true, description: 'The vessel.' })
    vesselId: string | null,
    @Args('fishId', { type: () => ID, nullable: true, description: 'The fish.' })
    fishId: string | null,
    @Args('spawnId', { type: () => ID, nullable: true, description: 'The spawn.' })
    spawnId: string | null,
    @First() first: number,
    @After() after: string | null,
  ): Promise<VesselStayConnectionModel> {
    const page = await this.service.stays({ vesselId, fishId, spawnId }, first, after ?? undefined);
    return mapPage(page, toStay);
  }

  @Mutation(() => [VesselModel], { description: 'Records vessels, a whole rack at once.' })
  async createVessels(
    @Args('input', { type: () => [CreateVesselInput], description: 'The vessels.' })
    input: CreateVesselInput[],
    @CurrentPerson() person: SignedInPerson,
  ): Promise<VesselModel[]> {
    return (await this.service.create(input, person)).map(toVessel);
  }

  @Mutation(() => VesselModel, { description: 'Corrects a vessel.' })
  async correctVessel(
    @Args('input', { description: 'What changes.' }) input: CorrectVesselInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<VesselModel> {
    return toVessel(await this.service.correct(input, person));
  }

  @Mutation(() => VesselModel, {
    description: 'Says that a vessel is no longer in use; one with somebody in it is refused.',
  })
  async withdrawVessel(
    @Args('input', { description: 'Which and why.' }) input: WithdrawInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<VesselModel> {
    return toVessel(await this.service.withdraw(input, person));
  }

  @Mutation(() => [VesselModel], {
    description:
      'Moves fish and spawns, all or none; answers with the vessels that changed. More than one in a vessel only where it is said why.',
  })
  async moveToVessel(
    @Args('input', { description: 'Who and whereto.' }) input: MoveToVesselInput,
    @CurrentPerson() person: SignedInPerson,
  ): Promise<VesselModel[]> {
    return (await this.moves.move(input, person)).map(toVessel);
  }

  @ResolveField(() => [VesselStayModel], { description: 'Who is in it now, the first come first.' })
  async stays(
    @Parent() vessel: VesselModel,
    @Context() context: object,
  ): Promise<VesselStayModel[]> {
    return (await this.loader.inVessel.of(context).load(vessel.id)).map(toStay);
  }
}
