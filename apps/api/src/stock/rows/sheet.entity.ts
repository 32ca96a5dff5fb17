import { Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';
import { storedJson } from '../../database/stored-json.js';
import {
  idsShape,
  sheetDeductionsShape,
  sheetFaultsShape,
  sheetLinesShape,
} from './record-shapes.js';
import type { SheetDeductions, SheetFaultContent, SheetLineContent } from './sheet-content.js';

const none = (): never[] => [];

@Entity('score_sheet')
export class ScoreSheetRow extends RecordRow {
  @ForeignKey('PersonRow', { name: 'score_sheet_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('text')
  name: string;

  @Column('text', { nullable: true })
  description: string | null;

  /** Number of its newest version. */
  @Column('integer', { default: 1 })
  version: number;
}

/** What a version of a sheet asked for; written once. */
@Entity('score_sheet_version')
export class ScoreSheetVersionRow {
  @ForeignKey('ScoreSheetRow', {
    name: 'score_sheet_version_sheet',
    deferrable: 'INITIALLY DEFERRED',
  })
  @PrimaryColumn('uuid', { name: 'sheet_id' })
  sheetId: string;

  @PrimaryColumn('integer')
  version: number;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @Column('integer', { name: 'from_age_days', nullable: true })
  fromAgeDays: number | null;

  @Column('integer', { name: 'to_age_days', nullable: true })
  toAgeDays: number | null;

  @Column('jsonb', { transformer: storedJson('list of sheet lines', sheetLinesShape, none) })
  lines: SheetLineContent[];

  @Column('jsonb', { transformer: storedJson('list of faults', sheetFaultsShape, none) })
  faults: SheetFaultContent[];

  @Column('jsonb', {
    transformer: storedJson('list of deductions', sheetDeductionsShape, () => ({})),
  })
  deductions: SheetDeductions;
}

/** One fish looked at once on a sheet; its values are ordinary scores that point here. */
@Entity('sheet_scoring')
@Index('sheet_scoring_by_fish', ['fishId', 'scoredOn'])
export class SheetScoringRow extends RecordRow {
  /** Who gave it here: written by the database itself, read by its policies alone. */
  @Column('uuid', {
    name: 'by_account_id',
    nullable: true,
    default: () => 'door_account()',
    ...{ select: false, insert: false, update: false },
  })
  byAccountId: string | null;

  @ForeignKey('FishRow', { name: 'sheet_scoring_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  @Index('sheet_scoring_by_sheet')
  @ForeignKey('ScoreSheetRow', { name: 'sheet_scoring_sheet', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'sheet_id' })
  sheetId: string;

  @Column('integer', { name: 'sheet_version' })
  sheetVersion: number;

  @Column('date', { name: 'scored_on' })
  scoredOn: string;

  @Column('integer', { name: 'age_days', nullable: true })
  ageDays: number | null;

  @Column('text')
  scorer: string;

  @Column('text', { nullable: true })
  note: string | null;

  /** Ids of the sheet's faults that were seen. */
  @Column('jsonb', {
    name: 'fault_ids',
    transformer: storedJson('list of seen faults', idsShape, none),
  })
  faultIds: string[];
}
