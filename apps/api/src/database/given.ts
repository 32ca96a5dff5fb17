/** The fields a form sent: absent ones are left out, so that they stay as they are; `null` clears a field that may be empty. */
export const given = <T extends object>(fields: T): Partial<T> =>
  Object.fromEntries(
    Object.entries(fields).filter(([, value]) => value !== undefined),
  ) as Partial<T>;

/** A required field cannot be cleared: `null` in a correction means "as it was". */
export const kept = <T>(value: T | null | undefined): T | undefined => value ?? undefined;

export const trimmed = (value: string | null | undefined): string | null | undefined => {
  if (value === undefined || value === null) return value;
  const text = value.trim();
  return text === '' ? null : text;
};
