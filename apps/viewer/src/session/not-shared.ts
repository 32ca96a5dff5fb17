import { createContext, useContext } from 'react';
import type { FishFacts } from '../api/fish.js';

type LinePart = FishFacts['notShared'][number];

/** Parts of the record that a page is about which are not shared with whoever is signed in, as the server says. */
export const NotSharedContext = createContext<readonly LinePart[]>([]);

export const useNotShared = (part: LinePart): boolean =>
  useContext(NotSharedContext).includes(part);
