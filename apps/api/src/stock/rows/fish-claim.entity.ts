import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/**
 * "This fish is mine": of a fish of which somebody else recorded the tag alone. The claimant writes the claim and takes it back (withdrawn);
 * whoever recorded the tag writes the answer.
 */
@Entity('fish_claim')
export class FishClaimRow extends RecordRow {
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

  @Column('text', { nullable: true })
  answer: 'confirmed' | 'declined' | null;

  @Column('date', { name: 'answered_on', nullable: true })
  answeredOn: string | null;

  @Column('text', { name: 'answer_word', nullable: true })
  answerWord: string | null;

  /** Both records were made one here; never goes out. */
  @Column('boolean', { default: false })
  applied: boolean;
}
