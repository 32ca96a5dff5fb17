import type { FishDeal } from '../../api/deals.js';
import { moneyText } from '../../wording/money.js';

/** How a fish came or went, or was offered. */
export const DEAL_WORDS: Readonly<Record<FishDeal['kind'], string>> = {
  BOUGHT: 'Bought',
  ASKED: 'For sale',
  SOLD: 'Sold',
  GIVEN: 'Given away',
  SWAPPED: 'Swapped',
};

/** What was paid; a dash where nothing was, or nobody noted it. */
export function priceText({ amount, currency }: Pick<FishDeal, 'amount' | 'currency'>): string {
  return amount === null || currency === null ? '–' : moneyText(amount, currency);
}
