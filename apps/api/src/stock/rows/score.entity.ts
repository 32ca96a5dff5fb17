import type { ScoreScale } from '@linewright/merit';
import type { Marking } from '@linewright/pictures';
import { Column, Entity, ForeignKey, Index, Unique } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';
import { storedJson } from '../../database/stored-json.js';
import { gradesShape, markingShape } from './record-shapes.js';

/** The name given to values from `from` up to the next grade. */
export interface TraitGrade {
  readonly from: number;
  readonly name: string;
}

@Entity('trait_definition')
@Unique('trait_key_once', ['personId', 'key'])
export class TraitDefinitionRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'trait_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column({ type: 'text', collation: 'C' })
  key: string;

  @Column('text')
  name: string;

  @Column('text')
  kind: ScoreScale['kind'];

  @Column('text', { nullable: true })
  unit: string | null;

  @Column('double precision', { nullable: true })
  minimum: number | null;

  @Column('double precision', { nullable: true })
  maximum: number | null;

  @Column('boolean', { name: 'higher_is_better', nullable: true })
  higherIsBetter: boolean | null;

  @Column('integer', { name: 'from_age_days', nullable: true })
  fromAgeDays: number | null;

  @Column('integer', { name: 'to_age_days', nullable: true })
  toAgeDays: number | null;

  @Column('text', { nullable: true })
  description: string | null;

  /** Names of grades, each from a value up to the next: lowest first. */
  @Column('jsonb', {
    nullable: true,
    transformer: storedJson('list of grades', gradesShape, () => null),
  })
  grades: TraitGrade[] | null;

  /** Raised when the meaning changes (unit, range, kind); scores keep the version they were given under. */
  @Column('integer', { default: 1 })
  version: number;
}

/** What was marked, and on which picture. */
export interface MarkingOnPhoto extends Marking {
  readonly photoId: string;
}

@Entity('score')
@Index('score_by_fish_trait', ['fishId', 'traitId', 'scoredOn'])
export class ScoreRow extends RecordRow {
  /** Who gave it here: written by the database itself, read by its policies alone. */
  @Column('uuid', {
    name: 'by_account_id',
    nullable: true,
    default: () => 'door_account()',
    ...{ select: false, insert: false, update: false },
  })
  byAccountId: string | null;

  @ForeignKey('FishRow', { name: 'score_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  @Index('score_by_trait')
  @ForeignKey('TraitDefinitionRow', { name: 'score_trait', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'trait_id' })
  traitId: string;

  @Column('integer', { name: 'trait_version' })
  traitVersion: number;

  @Column('double precision')
  value: number;

  @Column('date', { name: 'scored_on' })
  scoredOn: string;

  @Column('integer', { name: 'age_days', nullable: true })
  ageDays: number | null;

  @Column('text')
  scorer: string;

  @Column('text', { nullable: true })
  note: string | null;

  /** The look at the whole fish on a sheet that it belongs to. */
  @Index('score_by_scoring')
  @ForeignKey('SheetScoringRow', { name: 'score_scoring', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'scoring_id', nullable: true })
  scoringId: string | null;

  @Index('score_by_corrected')
  @ForeignKey('ScoreRow', { name: 'score_corrects', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'corrects_id', nullable: true })
  correctsId: string | null;

  /** Of one that was measured on a picture: what was marked there. */
  @Column('jsonb', {
    nullable: true,
    transformer: storedJson('marking of a picture', markingShape, () => null),
  })
  marking: MarkingOnPhoto | null;
}
