import { Column, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

/** Pairs chosen together for a line, and what was expected of them when they were. */
@Entity('round')
export class RoundRow extends RecordRow {
  @Index('round_by_line')
  @ForeignKey('LineRow', { name: 'round_line', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'line_id' })
  lineId: string;

  @ForeignKey('PersonRow', { name: 'round_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  /** Version of what the line is for; 0 while nobody had said it. */
  @Column('integer', { name: 'purpose_version' })
  purposeVersion: number;

  @Column('date', { name: 'planned_on' })
  plannedOn: string;

  /** Highest mean coancestry that was allowed; null: no limit. */
  @Column('double precision', { name: 'kinship_limit', nullable: true })
  kinshipLimit: number | null;

  /** Mean worth of the pairs, in points for one young kept. */
  @Column('double precision', { name: 'expected_worth' })
  expectedWorth: number;

  /** Mean coancestry of the parents, each by its broods, themselves included; with those of the pairs that stood already. */
  @Column('double precision', { name: 'expected_kinship' })
  expectedKinship: number;

  /** Mean F of the broods. */
  @Column('double precision', { name: 'expected_inbreeding' })
  expectedInbreeding: number;

  @Column('text', { nullable: true })
  note: string | null;

  /** What was learnt, once the round is over. */
  @Column('text', { nullable: true })
  learnt: string | null;
}

/** One pair of a round: the planned pairing, and what was expected of it. Written once. */
@Entity('round_pair')
export class RoundPairRow {
  @ForeignKey('RoundRow', { name: 'round_pair_round', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'round_id' })
  roundId: string;

  @Index('round_pair_by_pairing')
  @ForeignKey('PairingRow', { name: 'round_pair_pairing', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'pairing_id' })
  pairingId: string;

  @Column('integer')
  place: number;

  @Column('double precision', { name: 'expected_worth' })
  expectedWorth: number;

  @Column('double precision', { name: 'expected_inbreeding' })
  expectedInbreeding: number;
}
