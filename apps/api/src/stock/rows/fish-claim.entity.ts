import { Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** "This fish is mine": of a fish of which somebody else recorded the tag alone. */
@Entity('fish_claim')
export class FishClaimRow {
  @PrimaryColumn('uuid')
  id: string;

  /** The bare record. */
  @Index('fish_claim_by_fish')
  @ForeignKey('FishRow', { name: 'fish_claim_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  @Column('text')
  tag: string;

  /** The claimant's own record of it; null where they have none. */
  @ForeignKey('FishRow', { name: 'fish_claim_as', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'as_fish_id', nullable: true })
  asFishId: string | null;

  @Column('text', { name: 'as_tag', nullable: true })
  asTag: string | null;

  @Index('fish_claim_by_by')
  @ForeignKey('PersonRow', { name: 'fish_claim_by', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'by_id' })
  byId: string;

  /** Whose record the bare one is: they confirm. */
  @Index('fish_claim_by_to')
  @ForeignKey('PersonRow', { name: 'fish_claim_to', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'to_id' })
  toId: string;

  @Column('text', { nullable: true })
  word: string | null;

  @Column('date', { name: 'claimed_on' })
  claimedOn: string;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @Column('text', { nullable: true })
  answer: 'confirmed' | 'declined' | 'taken_back' | null;

  @Column('date', { name: 'answered_on', nullable: true })
  answeredOn: string | null;

  @Column('text', { name: 'answer_word', nullable: true })
  answerWord: string | null;
}
