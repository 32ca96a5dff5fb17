import { z } from 'zod';
import { SecretField } from '../../components/fields.js';

/** Rules of a new password, shared by the first start and by changing it. */
export const newPassword = {
  password: z.string().min(10, 'Use at least 10 characters; a short sentence is easy to keep.'),
  repeat: z.string(),
};

export const sameTwice = ({ password, repeat }: { password: string; repeat: string }) =>
  password === repeat;

export const typedTwice = {
  path: ['repeat'],
  message: 'The two passwords differ: type the same one twice.',
};

export function NewPasswordFields() {
  return (
    <>
      <SecretField
        name="password"
        label="Password"
        hint="At least 10 characters. It cannot be read back, so keep it somewhere safe."
        autoComplete="new-password"
      />
      <SecretField name="repeat" label="Password again" autoComplete="new-password" />
    </>
  );
}
