/** In place of a tag or a name that whoever asks may not see. */
export const NOT_SHOWN = 'not shown';
