/** Whether a text is a UUID, in letters of either size. */
export const isUuid = (text: string): boolean =>
  /^[\da-f]{8}(-[\da-f]{4}){3}-[\da-f]{12}$/i.test(text);
