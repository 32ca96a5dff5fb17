import { Check, Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/** What a fish won at a show, in a class as its keeper names it. */
@Entity('show_result')
@Check('show_result_placing', 'placing > 0')
export class ShowResultRow extends RecordRow {
  @Index('show_result_by_fish')
  @ForeignKey('FishRow', { name: 'show_result_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  /** Who noted it; written by the database. */
  @Column('uuid', {
    name: 'by_account_id',
    nullable: true,
    default: () => 'door_account()',
    ...{ select: false, insert: false, update: false },
  })
  byAccountId: string | null;

  @Column('text')
  show: string;

  @Column('date', { name: 'on_date' })
  onDate: string;

  @Column('text', { name: 'class' })
  class: string;

  /** 1 is the first; null: shown and not placed, or not known. */
  @Column('integer', { nullable: true })
  placing: number | null;

  @Column('double precision', { nullable: true })
  points: number | null;

  /** The judge's words. */
  @Column('text', { nullable: true })
  note: string | null;
}
