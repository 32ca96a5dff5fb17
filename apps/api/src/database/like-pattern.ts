/** For ILIKE: `text` anywhere, its own per cent signs, underscores and backslashes taken as they stand. */
export const likePattern = (text: string): string => `%${text.replace(/[\\%_]/g, '\\$&')}%`;
