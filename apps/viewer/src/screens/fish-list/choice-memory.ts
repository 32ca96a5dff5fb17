import { choiceFrom, type Choice } from './choice.js';

const keyOf = (personId: string) => `linewright-chosen-fish ${personId}`;

/** What a person chose in this tab, so that looking at a fish or a reload loses nothing. */
export function keptChoice(personId: string): Choice {
  try {
    return choiceFrom(window.sessionStorage.getItem(keyOf(personId)));
  } catch {
    return [];
  }
}

export function keepChoice(personId: string, choice: Choice): void {
  try {
    if (choice.length === 0) window.sessionStorage.removeItem(keyOf(personId));
    else window.sessionStorage.setItem(keyOf(personId), JSON.stringify(choice));
  } catch {
    // A browser that keeps nothing: the choice lasts as long as the list is open.
  }
}
