import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** One act for several fish; what it changed of each stands in the history under its id. */
@Entity('fish_act')
@Index('fish_act_by_person', ['personId', 'at'])
export class FishActRow {
  @PrimaryColumn('uuid')
  id: string;

  @ForeignKey('PersonRow', { name: 'fish_act_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  /** In words, with the names of that day. */
  @Column('text')
  what: string;

  @Column('integer', { name: 'fish_count' })
  fishCount: number;

  @Column('text', { name: 'by_name' })
  byName: string;

  @Column('timestamptz')
  at: Date;

  @Column('timestamptz', { name: 'taken_back_at', nullable: true })
  takenBackAt: Date | null;

  @Column('text', { name: 'taken_back_by', nullable: true })
  takenBackBy: string | null;
}
