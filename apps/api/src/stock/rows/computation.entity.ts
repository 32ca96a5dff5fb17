import { Column, CreateDateColumn, Entity, Index, PrimaryColumn } from 'typeorm';

/** A long computation, readable by every process: how far it is, whether it shall stop, and what came out. */
@Entity('computation')
@Index('computation_wanted_once', ['kind', 'subject', 'evidence'], {
  unique: true,
  where: "state IN ('queued', 'running', 'done') AND partner_id IS NULL",
})
@Index('computation_of_partner_once', ['kind', 'subject', 'evidence', 'partnerId'], {
  unique: true,
  where: "state IN ('queued', 'running', 'done')",
})
export class ComputationRow {
  @PrimaryColumn('uuid')
  id: string;

  @Column('text')
  kind: string;

  /** What it is about within its kind, such as a locus. */
  @Column('text')
  subject: string;

  /** The state of the records it was computed from: an answer for another state is never served. */
  @Column('text')
  evidence: string;

  @Column('text', { default: 'queued' })
  state: string;

  /** 0 to 1. */
  @Column('double precision', { default: 0 })
  progress: number;

  @Column('boolean', { name: 'stop_asked', default: false })
  stopAsked: boolean;

  @Column('text', { name: 'asked_by' })
  askedBy: string;

  /** The account that asked, for which it is worked out. */
  /** A partner's are worked out from what they see, and theirs alone; null for those of the owner and the household. */
  @Column('uuid', { name: 'partner_id', nullable: true, default: () => 'door_partner()' })
  partnerId: string | null;

  @Column('uuid', { name: 'asked_by_account_id', nullable: true, default: () => 'door_account()' })
  askedByAccountId: string | null;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @Column('timestamptz', { name: 'started_at', nullable: true })
  startedAt: Date | null;

  /** Written while it runs: an old one means that its process is gone. */
  @Column('timestamptz', { name: 'seen_at', nullable: true })
  seenAt: Date | null;

  @Column('timestamptz', { name: 'ended_at', nullable: true })
  endedAt: Date | null;

  @Column('jsonb', { nullable: true, select: false })
  result: unknown;

  @Column('text', { name: 'error_code', nullable: true })
  errorCode: string | null;

  @Column('text', { name: 'error_message', nullable: true })
  errorMessage: string | null;
}
