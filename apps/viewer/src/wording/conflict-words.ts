/** The two ways out when a record was changed meanwhile: the same words wherever that is asked. */
export const SAVE_ENTERED = 'Save what I entered';
export const LEAVE_STANDING = 'Keep what is recorded';
