import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';
import type { FishSex } from './fish.entity.js';

export type HandOverKind = 'gift' | 'sale' | 'loan';
export type HandOverAnswer = 'accepted' | 'declined';
/** How a loan goes back: the fish itself, or the word that it died. */
export type LoanReturn = 'came_back' | 'died';
/** `kept`: a loan that was made a lasting hand-over; `handed_on`: whoever got it handed it on. */
export type HandOverEnd = LoanReturn | 'kept' | 'handed_on';

/**
 * One fish from one person to another. Offered and taken back (withdrawn) by the giver, answered by the receiver; it moves once both have
 * confirmed. What the one writes, the other never does.
 */
@Entity('hand_over')
export class HandOverRow extends RecordRow {
  /** Fish that were offered together. */
  @Column('uuid', { name: 'group_id' })
  groupId: string;

  @Index('hand_over_by_fish')
  @ForeignKey('FishRow', { name: 'hand_over_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  /** The fish's line when it was offered. */
  @ForeignKey('LineRow', { name: 'hand_over_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id', nullable: true })
  lineId: string | null;

  @Index('hand_over_by_from')
  @ForeignKey('PersonRow', { name: 'hand_over_from', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'from_id' })
  fromId: string;

  /** Null where nobody signs in under the name that was given: nobody will answer, and nobody is told so. */
  @Index('hand_over_by_to')
  @ForeignKey('PersonRow', { name: 'hand_over_to', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'to_id', nullable: true })
  toId: string | null;

  /** As the giver named them. */
  @Column('text', { name: 'to_name' })
  toName: string;

  /** The request of the club that it answers; of this server alone, so it never goes out. */
  @Index('hand_over_by_request')
  @ForeignKey('ClubRequestRow', { name: 'hand_over_request', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'request_id', nullable: true })
  requestId: string | null;

  @Column('text')
  kind: HandOverKind;

  @Column('date', { name: 'offered_on' })
  offeredOn: string;

  /** Of a loan: when it is to be back. */
  @Column('date', { name: 'back_on', nullable: true })
  backOn: string | null;

  @Column('text', { nullable: true })
  word: string | null;

  /** What the giver knows of its health. */
  @Column('text', { name: 'health_note', nullable: true })
  healthNote: string | null;

  /** Whether the giver sees that it spawned afterwards. */
  @Column('boolean', { name: 'later_spawns', default: false })
  laterSpawns: boolean;

  /** Whether these parts of its record go along. */
  @Column('boolean', { default: false })
  scores: boolean;

  @Column('boolean', { default: false })
  photos: boolean;

  @Column('boolean', { default: false })
  notes: boolean;

  /** As the fish was when it was offered. */
  @Column('text')
  tag: string;

  @Column('text')
  sex: FishSex;

  @Column('date', { name: 'hatch_date', nullable: true })
  hatchDate: string | null;

  @Column('text', { name: 'line_code', nullable: true })
  lineCode: string | null;

  @Column('text', { nullable: true })
  answer: HandOverAnswer | null;

  @Column('date', { name: 'answered_on', nullable: true })
  answeredOn: string | null;

  @Column('text', { name: 'answer_word', nullable: true })
  answerWord: string | null;

  /** Last day of the quarantine that the receiver set. */
  @Column('date', { name: 'quarantine_until', nullable: true })
  quarantineUntil: string | null;

  /** The tag that the receiver gives it, where that is another one: it goes back with the answer. */
  @Column('text', { name: 'new_tag', nullable: true })
  newTag: string | null;

  /** When it moved: said where the offer was made, which alone knows that it was not taken back. */
  @Column('date', { name: 'moved_on', nullable: true })
  movedOn: string | null;

  /** Which move of this fish it was, from 1. */
  @Column('integer', { nullable: true })
  turn: number | null;

  /** What the borrower says of the end of a loan. */
  @Column('text', { name: 'return_as', nullable: true })
  returnAs: LoanReturn | null;

  @Column('date', { name: 'return_said_on', nullable: true })
  returnSaidOn: string | null;

  @Column('text', { name: 'return_word', nullable: true })
  returnWord: string | null;

  @Column('date', { name: 'ended_on', nullable: true })
  endedOn: string | null;

  @Column('text', { name: 'ended_as', nullable: true })
  endedAs: HandOverEnd | null;

  /** Offered at this install, which then says when it moved; never goes out. */
  @Column('boolean', { name: 'made_here', default: false })
  madeHere: boolean;

  /** Its move was carried out on the records of this install; never goes out. */
  @Column('boolean', { default: false })
  applied: boolean;
}
