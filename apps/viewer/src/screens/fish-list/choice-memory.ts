import { choiceFrom, type Choice } from './choice.js';

const keyOf = (keeperId: string) => `linewright-chosen-fish ${keeperId}`;

/** What a keeper chose in this tab, so that looking at a fish or a reload loses nothing. */
export function keptChoice(keeperId: string): Choice {
  try {
    return choiceFrom(window.sessionStorage.getItem(keyOf(keeperId)));
  } catch {
    return [];
  }
}

export function keepChoice(keeperId: string, choice: Choice): void {
  try {
    if (choice.length === 0) window.sessionStorage.removeItem(keyOf(keeperId));
    else window.sessionStorage.setItem(keyOf(keeperId), JSON.stringify(choice));
  } catch {
    // A browser that keeps nothing: the choice lasts as long as the list is open.
  }
}
