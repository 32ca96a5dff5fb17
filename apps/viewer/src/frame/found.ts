import type { SavedSearch } from '../api/saved-searches.js';
import type { FoundGroup } from '../api/search.js';
import type { Place } from './navigation.js';

export interface FoundLink {
  readonly to: string;
  readonly title: string;
  readonly beside: string | null;
  readonly words: string | null;
}

export interface FoundList {
  readonly title: string;
  readonly links: readonly FoundLink[];
  /** Where the others are; null where these are all. */
  readonly more: string | null;
}

type Kind = FoundGroup['kind'];

const titles: Record<Kind, string> = {
  FISH: 'Fish',
  LINE: 'Lines',
  SPAWN: 'Spawns',
  PERSON: 'People',
  PLACE: 'Tanks and jars',
};

const pageOf: Record<Kind, (id: string) => string> = {
  FISH: (id) => `/fish/${id}`,
  LINE: (id) => `/lines/${id}`,
  SPAWN: (id) => `/spawns/${id}`,
  PERSON: () => '/people',
  PLACE: (id) => `/vessels/${id}`,
};

const listOf: Record<Kind, (text: string) => string> = {
  FISH: (text) => `/fish?use=all&text=${encodeURIComponent(text)}`,
  SPAWN: (text) => `/spawns?text=${encodeURIComponent(text)}`,
  LINE: () => '/lines',
  PERSON: () => '/people',
  PLACE: () => '/rack',
};

/** Pages whose name has the text, or a word that keepers use for them. */
export const pagesWith = (places: readonly Place[], text: string): FoundList[] => {
  const sought = text.trim().toLowerCase();
  const links = places
    .filter(({ label, also = '' }) => `${label} ${also}`.toLowerCase().includes(sought))
    .map(({ to, label }) => ({ to, title: label, beside: null, words: null }));
  return links.length === 0 ? [] : [{ title: 'Pages', links, more: null }];
};

/** Saved searches of the list of fish whose name has the text. */
export const searchesWith = (saved: readonly SavedSearch[], text: string): FoundList[] => {
  const sought = text.trim().toLowerCase();
  const links = saved
    .filter(({ name }) => name.toLowerCase().includes(sought))
    .map(({ name, filter }) => ({
      ...{ to: `/fish?${filter}`, title: name, beside: null, words: null },
    }));
  return links.length === 0 ? [] : [{ title: 'Saved searches', links, more: null }];
};

/** What the server found, as lists of links. */
export const linksOf = (groups: readonly FoundGroup[], text: string): FoundList[] =>
  groups.map(({ kind, found, hasMore }) => ({
    title: titles[kind],
    links: found.map(({ id, title, beside, words }) => ({
      ...{ to: pageOf[kind](id), title, beside, words },
    })),
    more: hasMore ? listOf[kind](text.trim()) : null,
  }));
