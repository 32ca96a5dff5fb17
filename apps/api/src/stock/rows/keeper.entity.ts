import {
  Column,
  CreateDateColumn,
  Entity,
  ForeignKey,
  Index,
  PrimaryColumn,
  PrimaryGeneratedColumn,
} from 'typeorm';

@Entity('keeper')
export class KeeperRow {
  @PrimaryColumn('uuid')
  id: string;

  @Column('text')
  name: string;

  /** True for the keeper whose install this is; partners met through shared lines are false. */
  @Index('keeper_here_once', { unique: true, where: 'here' })
  @Column('boolean', { default: false })
  here: boolean;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;
}

@Entity('credential')
export class CredentialRow {
  @ForeignKey('KeeperRow', { name: 'credential_keeper', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'keeper_id' })
  keeperId: string;

  @Column('text', { name: 'password_hash' })
  passwordHash: string;
}

@Entity('session')
export class SessionRow {
  /** SHA-256 of the cookie's token, hex: the token itself is never stored. */
  @PrimaryColumn('text', { name: 'id_hash' })
  idHash: string;

  @ForeignKey('KeeperRow', { name: 'session_keeper', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'keeper_id' })
  keeperId: string;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

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
