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
import { CurrentPerson, ForOwner } from '../../accounts/session.guard.js';
import { PersonModel } from '../../accounts/session.model.js';
import { SessionService } from '../../accounts/session.service.js';
import type { RequestContext, SignedInPerson } from '../../graphql/request-context.js';
import { toRecordChange } from '../../shapes/history.mapper.js';
import { RecordChangeModel } from '../../shapes/history.model.js';
import { toLine } from '../../shapes/line.mapper.js';
import { LineModel } from '../../shapes/line.model.js';
import { LineLoader } from '../../stock/line.loader.js';
import { PersonLoader } from '../../stock/person.loader.js';
import {
  LineExchangeModel,
  OwnInstallModel,
  PairInstallInput,
  PartnerInstallModel,
  TakenBackModel,
  toOwnInstall,
  toPartnerInstall,
} from '../partners/partner.model.js';
import { PartnersService } from '../partners/partners.service.js';
import { ExchangeSchedule } from './exchange-schedule.js';
import { ExchangeService } from './exchange.service.js';
import { WhatCameService } from './what-came.service.js';

const WHICH = 'The partner’s install.';

@Resolver(() => PartnerInstallModel)
@ForOwner()
export class PartnersResolver {
  constructor(
    private readonly partners: PartnersService,
    private readonly exchange: ExchangeService,
    private readonly schedule: ExchangeSchedule,
    private readonly people: PersonLoader,
    private readonly sessions: SessionService,
    private readonly came: WhatCameService,
  ) {}

  @Query(() => OwnInstallModel, {
    description: 'The code and the words of this install, to be given to a partner.',
  })
  async ownInstall(@CurrentPerson() person: SignedInPerson): Promise<OwnInstallModel> {
    return toOwnInstall(await this.partners.own(person));
  }

  @Mutation(() => OwnInstallModel, {
    description:
      'Makes new keys for this install, where the old ones are lost or somebody else may have them. Every partner has to pair with it again.',
  })
  async renewInstallKeys(
    @Context() { req }: RequestContext,
    @CurrentPerson() person: SignedInPerson,
    @Args('password', { type: () => String, description: 'Your password.' }) password: string,
  ): Promise<OwnInstallModel> {
    await this.sessions.verifyPassword(req, person.id, password);
    return toOwnInstall(await this.partners.renew(person));
  }

  @Query(() => [PartnerInstallModel], {
    description: 'Installs of partners that were paired with this one, the latest first.',
  })
  async partnerInstalls(): Promise<PartnerInstallModel[]> {
    return (await this.partners.list()).map(toPartnerInstall);
  }

  @Mutation(() => PartnerInstallModel, {
    description:
      'Pairs this install with a partner’s by its code; makes an account for the partner, to which lines are granted.',
  })
  async pairInstall(
    @Args('input', { description: 'The code.' }) { code, name }: PairInstallInput,
  ): Promise<PartnerInstallModel> {
    return toPartnerInstall(await this.partners.pair(code, name ?? null));
  }

  @Mutation(() => PartnerInstallModel, {
    description: 'Says that the words were read on both screens and are alike.',
  })
  async confirmInstallWords(
    @Args('installId', { type: () => ID, description: WHICH }) installId: string,
  ): Promise<PartnerInstallModel> {
    return toPartnerInstall(await this.partners.compared(installId));
  }

  @Mutation(() => PartnerInstallModel, {
    description:
      'Takes the key of a partner’s install back: its files are refused with the reason from then on, and where a folder is set they are told in it.',
  })
  async endInstall(
    @Args('installId', { type: () => ID, description: WHICH }) installId: string,
    @Args('reason', { type: () => String, nullable: true, description: 'Why.' })
    reason?: string | null,
  ): Promise<PartnerInstallModel> {
    await this.partners.end(installId, reason ?? null);
    await this.exchange.now(installId);
    return toPartnerInstall(await this.partners.one(installId));
  }

  @Mutation(() => PartnerInstallModel, {
    description:
      'Sets the folder through which lines are kept in step with a partner’s install, by its path on the machine of the server; none ends it.',
  })
  async setExchangeFolder(
    @Args('installId', { type: () => ID, description: WHICH }) installId: string,
    @Args('folder', { type: () => String, nullable: true, description: 'Its whole path.' })
    folder?: string | null,
  ): Promise<PartnerInstallModel> {
    const set = await this.partners.setFolder(installId, folder ?? null);
    if (set.row.folder !== null) await this.schedule.begin();
    return toPartnerInstall(set);
  }

  @Mutation(() => PartnerInstallModel, {
    description:
      'Looks into the folder now: takes in what came and writes what is granted. Where another process is at it, nothing is done and `underWay` is true.',
  })
  async exchangeNow(
    @Args('installId', { type: () => ID, description: WHICH }) installId: string,
  ): Promise<PartnerInstallModel> {
    return this.told(installId, await this.exchange.now(installId));
  }

  @Mutation(() => PartnerInstallModel, {
    description:
      'Takes in a line that a partner’s install offers in the folder, and grants it to the partner to breed with, so that it stays in step.',
  })
  async takeOfferedLine(
    @Args('installId', { type: () => ID, description: WHICH }) installId: string,
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
  ): Promise<PartnerInstallModel> {
    return this.told(installId, await this.exchange.takeOffered(installId, lineId));
  }

  @Query(() => [RecordChangeModel], {
    description:
      'What last came of a line from a partner’s install and was taken in without a look.',
  })
  async whatCame(
    @Args('installId', { type: () => ID, description: WHICH }) installId: string,
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
  ): Promise<RecordChangeModel[]> {
    return (await this.came.list(installId, lineId)).map(toRecordChange);
  }

  @Mutation(() => TakenBackModel, {
    description:
      'Takes back what last came of a line: new records are withdrawn, changed ones are as before. What was changed or used since stays.',
  })
  takeBackWhatCame(
    @CurrentPerson() person: SignedInPerson,
    @Args('installId', { type: () => ID, description: WHICH }) installId: string,
    @Args('lineId', { type: () => ID, description: 'The line.' }) lineId: string,
  ): Promise<TakenBackModel> {
    return this.came.takeBack(installId, lineId, person);
  }

  /** Another one that was at it may have ended by now: whoever asked is told of it all the same. */
  private async told(installId: string, done: boolean): Promise<PartnerInstallModel> {
    const told = toPartnerInstall(await this.partners.one(installId));
    return done ? told : { ...told, underWay: true };
  }

  @ResolveField(() => PersonModel, { description: 'Whose it is: lines are granted to them.' })
  person(
    @Parent() { personId }: PartnerInstallModel,
    @Context() context: object,
  ): Promise<PersonModel> {
    return this.people.known(personId, context);
  }
}

@Resolver(() => LineExchangeModel)
export class LineExchangeResolver {
  constructor(private readonly lines: LineLoader) {}

  @ResolveField(() => LineModel, {
    nullable: true,
    description: 'The line, where it is here already.',
  })
  async line(
    @Parent() { lineId }: LineExchangeModel,
    @Context() context: object,
  ): Promise<LineModel | null> {
    const row = await this.lines.byId.of(context).load(lineId);
    return row === null ? null : toLine(row);
  }
}
