import { Column, Entity, ForeignKey, PrimaryColumn, Unique } from 'typeorm';

/** What somebody narrowed the list of fish to, under a name of their own. */
@Entity('saved_search')
@Unique('saved_search_name', ['personId', 'name'])
export class SavedSearchRow {
  @PrimaryColumn('uuid')
  id: string;

  @ForeignKey('PersonRow', { name: 'saved_search_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('text')
  name: string;

  /** Names and values as in the address of the list, such as `sex=MALE&use=yes`. */
  @Column('text')
  filter: string;

  @Column('timestamptz')
  at: Date;
}
