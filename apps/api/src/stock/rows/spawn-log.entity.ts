import { Column, Entity, ForeignKey, Index } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

@Entity('spawn_event')
export class SpawnEventRow extends RecordRow {
  @Index('spawn_event_by_spawn')
  @ForeignKey('SpawnRow', { name: 'spawn_event_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id' })
  spawnId: string;

  @Column('text')
  kind: string;

  @Column('timestamptz')
  at: Date;

  @Column('text', { nullable: true })
  note: string | null;
}

@Entity('spawn_count')
export class SpawnCountRow extends RecordRow {
  @Index('spawn_count_by_spawn')
  @ForeignKey('SpawnRow', { name: 'spawn_count_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id' })
  spawnId: string;

  @Column('text')
  stage: string;

  @Column('date', { name: 'counted_on' })
  countedOn: string;

  @Column('integer')
  number: number;

  @Column('text', { nullable: true })
  note: string | null;
}

@Entity('spawn_loss')
export class SpawnLossRow extends RecordRow {
  @Index('spawn_loss_by_spawn')
  @ForeignKey('SpawnRow', { name: 'spawn_loss_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id' })
  spawnId: string;

  @Column('text')
  kind: string;

  @Column('date', { name: 'on_date' })
  onDate: string;

  @Column('integer')
  number: number;

  @Column('text')
  reason: string;

  @Column('boolean', { default: false })
  heritable: boolean;

  @Column('text', { name: 'locus_id', nullable: true })
  locusId: string | null;

  /** What was seen at that locus, by its id or name there: only then do the fish count as evidence on the parents. */
  @Column('text', { nullable: true })
  phenotype: string | null;

  @Column('text', { nullable: true })
  note: string | null;
}

/** Young of one phenotype class counted in a brood: evidence on the parents, with no record for each fry. */
@Entity('class_count')
export class ClassCountRow extends RecordRow {
  @Index('class_count_by_spawn')
  @ForeignKey('SpawnRow', { name: 'class_count_spawn', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'spawn_id' })
  spawnId: string;

  @Column('text', { name: 'locus_ids', array: true })
  locusIds: string[];

  @Column('text')
  phenotype: string;

  @Column('integer')
  number: number;

  @Column('date', { name: 'counted_on' })
  countedOn: string;

  @Column('text', { nullable: true })
  note: string | null;
}
