import { findLocus } from '@linewright/heredity';

/** What is seen at loci: id of the locus to id of what is seen. */
export type Shows = Readonly<Record<string, string>>;

export type Sex = 'male' | 'female';

/** A fish as it can be drawn; each field is what some locus decides, and nothing else. */
export interface FishLook {
  readonly ground: 'dark' | 'pale' | 'bright' | 'black' | 'albino';
  readonly red: 'red' | 'yellow' | 'orange';
  readonly redReach: 'fins' | 'all' | 'little' | 'fading';
  readonly shine: 'unknown' | 'turquoise' | 'royal' | 'steel';
  readonly shineReach: 'few' | 'spread';
  readonly chalk: 'none' | 'weak' | 'strong';
  readonly metal: 'none' | 'partial' | 'full';
  readonly banded: boolean;
  readonly patches: boolean;
  readonly spot: boolean;
  readonly fins: 'long' | 'short';
  readonly tail: 'single' | 'double';
  readonly web: 'full' | 'comb' | 'crown' | 'ruffled';
  readonly pectorals: 'ordinary' | 'large';
  readonly sex: Sex;
  /** Degrees between the first and the last ray of the tail. */
  readonly spread: number;
}

/** What is drawn where nothing is known: dark, red in the fins, few iridocytes, a single tail; of our own choosing. */
const PLAIN: FishLook = {
  ground: 'dark',
  red: 'red',
  redReach: 'fins',
  shine: 'unknown',
  shineReach: 'few',
  chalk: 'none',
  metal: 'none',
  banded: false,
  patches: false,
  spot: false,
  fins: 'long',
  tail: 'single',
  web: 'full',
  pectorals: 'ordinary',
  sex: 'male',
  spread: 150,
};

type Change = Partial<FishLook>;

/** What each look of the catalogue changes, by locus and look. Of two that change one thing the later stands. */
const CHANGES: Readonly<Record<string, Readonly<Record<string, Change>>>> = {
  b: { full: {}, blond: { ground: 'bright' } },
  m: { ordinary: {}, melano: { ground: 'black' } },
  c: { dark: {}, cambodian: { ground: 'pale' } },
  al: { pigmented: {}, albino: { ground: 'albino' } },
  nr1: { red: {}, yellow: { red: 'yellow' } },
  nr2: { orange: { red: 'orange' } },
  er: { 'fins-only': {}, extended: { redReach: 'all' } },
  rr: { reduced: { redReach: 'little' } },
  rl: { 'loses-red': { redReach: 'fading' } },
  // Where the colour of the shine is known and how far it spreads is not, it is drawn spread: it is what was looked at.
  bl: {
    turquoise: { shine: 'turquoise', shineReach: 'spread' },
    royal: { shine: 'royal', shineReach: 'spread' },
    steel: { shine: 'steel', shineReach: 'spread' },
  },
  si: { spread: { shineReach: 'spread' }, sparse: { shineReach: 'few' } },
  op: { none: {}, weak: { chalk: 'weak' }, strong: { chalk: 'strong' } },
  mt: { none: {}, partial: { metal: 'partial' }, full: { metal: 'full' } },
  vf: { plain: {}, variegated: { banded: true } },
  mb: { stable: {}, marble: { patches: true } },
  fs: { spot: { spot: true } },
  lf: { long: {}, short: { fins: 'short' } },
  dt: { single: {}, double: { tail: 'double' } },
  ct: { 'full-web': {}, combtail: { web: 'comb' }, crowntail: { web: 'crown' } },
  rt: { rosetail: { web: 'ruffled' } },
  db: { ordinary: {}, dumbo: { pectorals: 'large' } },
  sx: { female: { sex: 'female' }, male: { sex: 'male' } },
};

export interface KnownBeside {
  readonly sex?: Sex;
  /** Degrees; 0 and below are not drawn. */
  readonly spread?: number;
}

/** A fish that shows these looks; where nothing is known, plain. Looks that have no drawing are told by {@link notDrawn}. */
export function fishLook(shows: Shows, { sex, spread }: KnownBeside = {}): FishLook {
  const changes = Object.entries(CHANGES).flatMap(([locus, looks]) => {
    const shown = shows[locus];
    return shown === undefined ? [] : [looks[shown] ?? {}];
  });
  return {
    ...PLAIN,
    ...(sex !== undefined && { sex }),
    ...(Object.assign({}, ...changes) as Change),
    ...(spread !== undefined && spread > 0 && { spread: Math.min(spread, 240) }),
  };
}

/** Loci whose look is known and cannot be drawn: a keeper's own, most of all. */
export const notDrawn = (shows: Shows): string[] =>
  Object.entries(shows).flatMap(([locus, look]) =>
    CHANGES[locus]?.[look] === undefined ? [locus] : [],
  );

/** What a class or a record names, taken apart; `phenotype` is the look's id or its name. */
export interface NamedLook {
  readonly locusIds: readonly string[];
  readonly phenotype: string;
  readonly hidden?: boolean;
}

/** Looks by locus, of parts that name one locus each. Hidden ones show nothing. */
export function showsOf(parts: readonly NamedLook[]): Shows {
  return Object.fromEntries(
    parts.flatMap(({ locusIds, phenotype, hidden }) => {
      const [locus] = locusIds;
      if (hidden === true || locus === undefined || locusIds.length > 1) return [];
      return [[locus, idOfLook(locus, phenotype)]];
    }),
  );
}

function idOfLook(locus: string, named: string): string {
  if (CHANGES[locus] === undefined) return named;
  return findLocus(locus).phenotypes.find(({ name }) => name === named)?.id ?? named;
}
