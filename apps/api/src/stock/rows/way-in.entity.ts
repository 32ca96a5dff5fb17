import { Column, CreateDateColumn, Entity, ForeignKey, Index, PrimaryColumn } from 'typeorm';

/** The shared secret of somebody's one-time codes (RFC 6238); it counts once `confirmedAt` is set. */
@Entity('second_step')
export class SecondStepRow {
  @ForeignKey('PersonRow', { name: 'second_step_person', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'person_id' })
  personId: string;

  /** Base32, as it stands in the picture that a phone reads: it has to be known to check a code. */
  @Column('text')
  secret: string;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @Column('timestamptz', { name: 'confirmed_at', nullable: true })
  confirmedAt: Date | null;

  /** The time step of the last code that was taken: no code is taken twice. */
  @Column('bigint', { name: 'last_step', default: 0 })
  lastStep: string;
}

/** Stands in once for a code, for who lost the phone. */
@Entity('spare_code')
export class SpareCodeRow {
  @ForeignKey('PersonRow', { name: 'spare_code_person', deferrable: 'INITIALLY DEFERRED' })
  @PrimaryColumn('uuid', { name: 'person_id' })
  personId: string;

  /** SHA-256, hex. */
  @PrimaryColumn('text', { name: 'code_hash' })
  codeHash: string;
}

/** A key pair on somebody's device (WebAuthn); the private half never leaves it. */
@Entity('passkey')
export class PasskeyRow {
  @PrimaryColumn('uuid')
  id: string;

  /** As the device names it, base64url. */
  @Index('passkey_by_credential', { unique: true })
  @Column('text', { name: 'credential_id' })
  credentialId: string;

  @ForeignKey('PersonRow', { name: 'passkey_person', deferrable: 'INITIALLY DEFERRED' })
  @Index('passkey_by_person')
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('text')
  name: string;

  /** COSE. */
  @Column('bytea', { name: 'public_key' })
  publicKey: Buffer;

  /** How often it says it was used; 0 where a device does not count. */
  @Column('bigint')
  counter: string;

  @Column('text', { array: true })
  transports: string[];

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @Column('timestamptz', { name: 'used_at', nullable: true })
  usedAt: Date | null;
}

/** What a passkey is asked to sign, once and soon. In the database, so that any API process takes the answer. */
@Entity('passkey_challenge')
export class PasskeyChallengeRow {
  @PrimaryColumn('uuid')
  id: string;

  /** Base64url. */
  @Column('text')
  challenge: string;

  /** Who adds a passkey; `null` for whoever signs in. */
  @ForeignKey('PersonRow', { name: 'passkey_challenge_person', deferrable: 'INITIALLY DEFERRED' })
  @Column('uuid', { name: 'person_id', nullable: true })
  personId: string | null;

  @Index('passkey_challenge_expires_at')
  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;
}

/** By which a program asks in somebody's name. */
@Entity('program_token')
export class ProgramTokenRow {
  @PrimaryColumn('uuid')
  id: string;

  /** SHA-256 of the token, hex: the token itself is never stored. */
  @Index('program_token_by_token', { unique: true })
  @Column('text', { name: 'token_hash' })
  tokenHash: string;

  @ForeignKey('PersonRow', { name: 'program_token_person', deferrable: 'INITIALLY DEFERRED' })
  @Index('program_token_by_person')
  @Column('uuid', { name: 'person_id' })
  personId: string;

  @Column('text')
  name: string;

  /** False: it only reads. */
  @Column('boolean', { name: 'may_record' })
  mayRecord: boolean;

  @CreateDateColumn({ name: 'created_at', type: 'timestamptz' })
  createdAt: Date;

  @Column('timestamptz', { name: 'expires_at' })
  expiresAt: Date;

  @Column('timestamptz', { name: 'used_at', nullable: true })
  usedAt: Date | null;
}
