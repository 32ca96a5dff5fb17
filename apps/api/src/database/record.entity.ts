import { Column, CreateDateColumn, PrimaryColumn, UpdateDateColumn } from 'typeorm';

/** What every record table carries: identity, revision, and withdrawal instead of deletion. */
export abstract class RecordRow {
  @PrimaryColumn('uuid')
  id: string;

  @Column('integer', { default: 1 })
  revision: number;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @UpdateDateColumn({ name: 'updated_at', type: 'timestamptz' })
  updatedAt: Date;

  @Column('timestamptz', { name: 'withdrawn_at', nullable: true })
  withdrawnAt: Date | null;

  @Column('text', { name: 'withdrawn_reason', nullable: true })
  withdrawnReason: string | null;
}
