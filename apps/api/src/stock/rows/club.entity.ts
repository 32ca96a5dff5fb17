import { Check, Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** What whoever's a line is says of it to the club. Where there is no row, nothing is shown and nothing counted. */
@Entity('club_line')
export class ClubLineRow {
  @ForeignKey('LineRow', { name: 'club_line_line', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'line_id' })
  lineId: string;

  /** Whose line it is. */
  @ForeignKey('PersonRow', { name: 'club_line_keeper', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'keeper_id' })
  keeperId: string;

  /** Everybody with an account may know of it. */
  @Column('boolean', { default: false })
  shown: boolean;

  /** Its broods and scores go into pooled figures. */
  @Column('boolean', { default: false })
  counted: boolean;

  @Column('uuid', { name: 'by_account_id', nullable: true, default: () => 'door_account()' })
  byAccountId?: string | null;

  @Column('timestamptz', { name: 'changed_at', default: () => 'now()' })
  changedAt: Date;
}

/** Of which lines a pooled figure was told last, so that no two are told that differ by what is one keeper's. */
@Entity('club_figure')
export class ClubFigureRow {
  @PrimaryColumn('text')
  figure: string;

  @Column('uuid', { array: true, name: 'line_ids' })
  lineIds: string[];
}

export type ClubRequestWhat = 'fish' | 'loan' | 'stud';
export type ClubRequestState = 'open' | 'yes' | 'no' | 'withdrawn';

/** One keeper asks another for something of a line that is shown. */
@Entity('club_request')
@Index('club_request_by_asked', ['askedAt', 'id'])
@Check('club_request_what', `what IN ('fish', 'loan', 'stud')`)
@Check('club_request_state', `state IN ('open', 'yes', 'no', 'withdrawn')`)
export class ClubRequestRow {
  @PrimaryColumn('uuid')
  id: string;

  @ForeignKey('LineRow', { name: 'club_request_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id' })
  lineId: string;

  /** Code and name as they were shown to who asked. */
  @Column('text', { name: 'line_name' })
  lineName: string;

  @ForeignKey('PersonRow', { name: 'club_request_from', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'from_id' })
  fromId: string;

  @ForeignKey('PersonRow', { name: 'club_request_to', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'to_id' })
  toId: string;

  @Column('text')
  what: ClubRequestWhat;

  @Column('text')
  words: string;

  @CreateDateColumn({ name: 'asked_at', type: 'timestamptz' })
  askedAt: Date;

  @Column('text', { default: 'open' })
  state: ClubRequestState;

  @Column('text', { nullable: true })
  answer: string | null;

  /** When it was answered, or withdrawn. */
  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;
}
