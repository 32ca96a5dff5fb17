import { z } from 'zod';
import { SecretField } from '../../components/fields.js';

/** Asked for before what opens these records is changed. */
export const ownPassword = { password: z.string().min(1, 'Type your password.') };

export function OwnPasswordField() {
  return <SecretField name="password" label="Your password" autoComplete="current-password" />;
}
