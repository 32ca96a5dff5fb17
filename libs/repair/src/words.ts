/** A sex as a file can say it. */
export type WrittenSex = 'male' | 'female' | 'unsexed' | 'uncertain';

const table = <Value extends string>(
  words: Readonly<Record<Value, string>>,
): ReadonlyMap<string, Value> =>
  new Map(
    Object.entries<string>(words).flatMap(([value, list]) =>
      list.split(' ').map((word) => [word.replaceAll('_', ' '), value as Value] as const),
    ),
  );

const sexes = table<WrittenSex>({
  male: 'm male males ♂',
  female: 'f female females ♀',
  unsexed: 'u unsexed unknown',
  uncertain: '? uncertain m? f? male? female? ♂? ♀?',
});

/** Words of other languages and of everyday talk, which are offered and not taken for granted. */
const meant = table<'male' | 'female'>({
  male: 'boy buck man mâle macho maschio männlich maennlich mann mannelijk jantan đực ผู้',
  female: 'girl hen woman w femelle hembra femmina weiblich weib vrouwelijk vrouw betina cái เมีย',
});

const plain = (text: string): string => text.trim().toLowerCase();

/** The sex that a word stands for, or `null`. */
export const sexWritten = (text: string): WrittenSex | null => sexes.get(plain(text)) ?? null;

/** The sex that a word most likely stands for where {@link sexWritten} knows none. */
export const sexMeant = (text: string): 'male' | 'female' | null => {
  const word = plain(text);
  const known = meant.get(word);
  if (known !== undefined) return known;
  if (/^fem/.test(word)) return 'female';
  return /^mal/.test(word) ? 'male' : null;
};

/** What became of a fish, as a file can say it. */
export type WrittenDisposition =
  | 'unsorted'
  | 'keeper'
  | 'hold'
  | 'culled'
  | 'placed'
  | 'died'
  | 'elsewhere';

const dispositions = table<WrittenDisposition>({
  unsorted: 'unsorted undecided',
  keeper: 'keeper keep kept in_use breeder breeding active yes y x',
  hold: 'hold on_hold wait',
  culled: 'culled cull',
  placed: 'placed sold gone given_away gift rehomed',
  died: 'died dead death † deceased',
  elsewhere: 'elsewhere not_here never_here no n',
});

/** What became of a fish by the word of a file, or `null`. */
export const dispositionWritten = (text: string): WrittenDisposition | null =>
  dispositions.get(plain(text).replace(/[_-]/g, ' ')) ?? null;

/** What a word that starts like a known one most likely means. */
export const dispositionMeant = (text: string): WrittenDisposition | null => {
  const word = plain(text).replace(/[_-]/g, ' ');
  if (word.length < 3) return null;
  for (const [known, value] of dispositions)
    if (known.length > 3 && word.startsWith(known)) return value;
  return null;
};
