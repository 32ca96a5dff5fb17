import { Check, Column, Entity, ForeignKey, Index, type ValueTransformer } from 'typeorm';
import { RecordRow } from '../../database/record.entity.js';

export type FishDealKind = 'bought' | 'asked' | 'sold' | 'given' | 'swapped';

/** The driver gives whole numbers of 64 bits as text; amounts are small enough to be numbers. */
const wholeNumber: ValueTransformer = {
  to: (value: unknown) => value,
  from: (value: string | null) => (value === null ? null : Number(value)),
};

/** What was paid, asked or got for a fish. Whoever's record it is keeps it when the fish goes to somebody else. */
@Entity('fish_deal')
@Check('fish_deal_kind', `kind IN ('bought', 'asked', 'sold', 'given', 'swapped')`)
@Check(
  'fish_deal_amount',
  `amount >= 0 AND currency ~ '^[A-Z]{3}$' OR amount IS NULL AND currency IS NULL`,
)
export class FishDealRow extends RecordRow {
  @Index('fish_deal_by_fish')
  @ForeignKey('FishRow', { name: 'fish_deal_fish', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'fish_id' })
  fishId: string;

  @Index('fish_deal_by_person')
  @ForeignKey('PersonRow', { name: 'fish_deal_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('text')
  kind: FishDealKind;

  @Column('date', { name: 'on_date' })
  onDate: string;

  /** In the smallest unit of the currency (ISO 4217): cents of a euro, yen. Null: nothing was paid, or it is not known. */
  @Column('bigint', { nullable: true, transformer: wholeNumber })
  amount: number | null;

  /** Three letters of ISO 4217. */
  @Column('text', { nullable: true })
  currency: string | null;

  /** From whom or to whom, in the words of whose record it is. */
  @Column('text', { name: 'with_whom', nullable: true })
  withWhom: string | null;

  @Column('text', { nullable: true })
  note: string | null;
}
