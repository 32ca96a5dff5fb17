import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { PersonModel } from '../../accounts/session.model.js';
import { QrCodeModel, toQrCode } from '../../graphql/qr-code.js';
import { LineModel } from '../../shapes/line.model.js';
import type { OwnInstall, PartnerInstall } from './partners.service.js';

@ObjectType('OwnInstall', { description: 'What a partner is given to pair with this install.' })
export class OwnInstallModel {
  @Field(() => String, { description: 'The code, to be pasted on the partner’s screen.' })
  code: string;

  @Field(() => QrCodeModel, { description: 'The same, to be photographed.' })
  qr: QrCodeModel;

  @Field(() => String, { description: 'Six words of its keys, to be compared.' })
  words: string;
}

@ObjectType('LineExchange', { description: 'A line between this install and a partner’s.' })
export class LineExchangeModel {
  /** Loaded as `line`. */
  @Field(() => ID, { description: 'The line, the same in every install.' })
  lineId: string;

  @Field(() => LineModel, { nullable: true, description: 'The line, where it is here already.' })
  line?: LineModel | null;

  @Field(() => String, { nullable: true, description: 'What the partner’s last file calls it.' })
  lineCode: string | null;

  @Field(() => Date, { nullable: true, description: 'When it was last written for them.' })
  sentAt: Date | null;

  @Field(() => Date, { nullable: true, description: 'When theirs was last taken in.' })
  readAt: Date | null;

  @Field(() => Int, { description: 'Records that were new or changed by that.' })
  taken: number;

  @Field(() => Int, {
    description:
      'Changes of theirs that were not taken: the grant does not give them, or they rest on such.',
  })
  leftOut: number;

  @Field(() => Int, { description: 'Pictures of theirs that have not come yet.' })
  photosWaiting: number;

  @Field(() => Date, {
    nullable: true,
    description: 'When their last changes were taken in: `whatCame` tells them.',
  })
  cameAt: Date | null;

  @Field(() => String, { nullable: true, description: 'Why their last file was not taken in.' })
  problem: string | null;
}

@ObjectType('PartnerInstall', { description: 'A partner’s install that was paired with this one.' })
export class PartnerInstallModel {
  @Field(() => ID, { description: 'Its id, which follows from its keys.' })
  id: string;

  /** Loaded as `person`. */
  personId: string;

  @Field(() => PersonModel, { description: 'Whose it is: lines are granted to them.' })
  person?: PersonModel;

  @Field(() => String, { description: 'Six words of its keys, to be compared.' })
  words: string;

  @Field(() => Date, { description: 'When the two were paired.' })
  pairedAt: Date;

  @Field(() => Date, { nullable: true, description: 'When the words were found alike.' })
  comparedAt: Date | null;

  @Field(() => Date, { nullable: true, description: 'When its key was taken back.' })
  endedAt: Date | null;

  @Field(() => String, { nullable: true, description: 'Why it was taken back.' })
  endedReason: string | null;

  @Field(() => Date, {
    nullable: true,
    description: 'When they took the key of this install back, as they say in the folder.',
  })
  refusedAt: Date | null;

  @Field(() => String, { nullable: true, description: 'Why, as they say.' })
  refusedReason: string | null;

  @Field(() => Boolean, {
    description: 'True while its folder is being looked into, by this or another process.',
  })
  underWay: boolean;

  @Field(() => String, {
    nullable: true,
    description: 'The folder both reach, by its path on the machine that the server runs on.',
  })
  folder: string | null;

  @Field(() => Int, { description: 'The folder is looked into once in so many minutes.' })
  everyMinutes: number;

  @Field(() => Date, { nullable: true, description: 'When the folder was last looked into.' })
  lookedAt: Date | null;

  @Field(() => String, { nullable: true, description: 'Why that did not come to its end.' })
  problem: string | null;

  @Field(() => Int, { description: 'Other installs that write into the same folder.' })
  strangers: number;

  @Field(() => [LineExchangeModel], { description: 'What went between the two, line by line.' })
  lines: LineExchangeModel[];
}

@ObjectType('TakenBack', {
  description: 'What came of taking back what a partner’s install brought.',
})
export class TakenBackModel {
  @Field(() => Int, { description: 'Changes that were taken back.' })
  taken: number;

  @Field(() => Int, {
    description: 'Changes that stay: the record was changed since, or others rest on it.',
  })
  left: number;
}

@InputType({ description: 'Pairs this install with a partner’s.' })
export class PairInstallInput {
  @Field(() => String, { description: 'The code from the partner’s screen.' })
  code: string;

  @Field(() => String, {
    nullable: true,
    description: 'What they are called here; without it, what they call themselves.',
  })
  name?: string | null;
}

export const toOwnInstall = ({ code, words }: OwnInstall): OwnInstallModel => ({
  ...{ code, words: words.join(' '), qr: toQrCode(code) },
});

export const toPartnerInstall = ({
  row,
  words,
  exchanges,
  underWay,
  everyMinutes,
}: PartnerInstall): PartnerInstallModel => ({
  ...{ id: row.installId, personId: row.personId, words: words.join(' ') },
  ...{ pairedAt: row.pairedAt, comparedAt: row.comparedAt },
  ...{ endedAt: row.endedAt, endedReason: row.endedReason },
  ...{ refusedAt: row.refusedAt, refusedReason: row.refusedReason, underWay },
  everyMinutes,
  ...{ folder: row.folder, lookedAt: row.lookedAt, problem: row.problem },
  strangers: row.strangers.length,
  lines: exchanges.map(
    ({ lineId, lineCode, sentAt, readAt, taken, leftOut, photosWaiting, problem, cameAt }) => ({
      ...{ lineId, lineCode, sentAt, readAt, taken, leftOut, photosWaiting, problem, cameAt },
    }),
  ),
});
