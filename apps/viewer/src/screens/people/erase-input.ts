export type Afterwards = '' | 'HAND_OVER' | 'END';

/** What is typed and chosen in the form. */
export interface EraseFields {
  readonly password: string;
  readonly confirm: string;
  readonly afterwards: Afterwards;
  readonly heirId: string;
  readonly withBackups: boolean;
}

/** What is sent: what becomes of the install only where it was chosen. */
export const erased = ({ password, confirm, afterwards, heirId, withBackups }: EraseFields) => ({
  password,
  input: {
    confirm: confirm.trim(),
    ...(afterwards !== '' && { afterwards }),
    ...(afterwards === 'HAND_OVER' && { heirId }),
    ...(afterwards === 'END' && { withBackups }),
  },
});
