import {
  Check,
  Column,
  CreateDateColumn,
  Entity,
  ForeignKey,
  Index,
  PrimaryColumn,
  PrimaryGeneratedColumn,
} from 'typeorm';
import type { AccountRole } from '../../access/actor.js';

@Entity('person')
@Check(
  'person_role',
  `role IN ('owner', 'household', 'partner', 'keeper') AND here = (role = 'owner') OR role IS NULL AND NOT here`,
)
export class PersonRow {
  @PrimaryColumn('uuid')
  id: string;

  @Column('text')
  name: string;

  /** True for the person whose install this is; partners met through shared lines are false. */
  @Index('person_here_once', { unique: true, where: 'here' })
  @Column('boolean', { default: false })
  here: boolean;

  /** Null for people met through shared lines, who have no account here. */
  @Column('text', { nullable: true })
  role: AccountRole | null;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  /** When all that was theirs was erased: then the name is one that says nothing of them. */
  @Column('timestamptz', { name: 'erased_at', nullable: true })
  erasedAt: Date | null;
}

@Entity('credential')
export class CredentialRow {
  @ForeignKey('PersonRow', { name: 'credential_person', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'person_id' })
  personId: string;

  @Column('text', { name: 'password_hash' })
  passwordHash: string;
}

/** The way in for somebody who has no password yet, or lost it: one a person, gone once it is used. */
@Entity('invitation')
export class InvitationRow {
  @ForeignKey('PersonRow', { name: 'invitation_person', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'person_id' })
  personId: string;

  /** SHA-256 of the link's token, hex: the token itself is never stored. */
  @Index('invitation_by_token', { unique: true })
  @Column('text', { name: 'token_hash' })
  tokenHash: string;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;
}

@Entity('session')
export class SessionRow {
  /** By which it is named to the person whose it is; the cookie's token cannot be found from it. */
  @Index('session_by_id', { unique: true })
  @Column('uuid')
  id: string;

  /** SHA-256 of the cookie's token, hex: the token itself is never stored. */
  @PrimaryColumn('text', { name: 'id_hash' })
  idHash: string;

  @ForeignKey('PersonRow', { name: 'session_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  /** Browser and system, as the browser says them; empty when it says neither. */
  @Column('text', { default: '' })
  device: string;

  @Column('timestamptz', { name: 'seen_at', default: () => 'now()' })
  seenAt: Date;

  @Index('session_expires_at')
  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;
}

/** A refused sign-in or a wrong calendar address, kept in the database so that every API process counts the same ones. */
@Entity('refused_attempt')
@Index('refused_attempt_by_address', ['what', 'address', 'at'])
export class RefusedAttemptRow {
  @PrimaryGeneratedColumn('identity', { type: 'bigint', generatedIdentity: 'ALWAYS' })
  sequence: string;

  @Column('text')
  what: string;

  @Column('text')
  address: string;

  @Column('timestamptz', { default: () => 'now()' })
  at: Date;
}
