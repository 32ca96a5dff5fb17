import { describe, expect, it } from 'vitest';
import type { BenchFish } from './bench-facts.js';
import { blank, type Filled } from './bench-place.js';
import { decide, move, pick, toggleFault, undo, type CardInHand } from './card-acts.js';
import { nothingScored } from './sheet-look.js';

const fish = (id: string, disposition: BenchFish['disposition'] = 'UNSORTED'): BenchFish => ({
  ...{ id, tag: `T-${id}`, hatchDate: null, revision: 1, sex: 'UNSEXED', disposition },
  ...{ dispositionDate: null, dispositionReason: null, scores: new Map(), onServer: null },
  ...{ waiting: 0, stopped: [] },
});

interface Given {
  filled?: Partial<Filled>;
  scoring?: Partial<CardInHand['scoring']>;
  locusId?: string;
  /** Whether the device keeps what is entered. */
  keeps?: boolean;
}

/** The first of three fish in hand; what is done is written down. */
function bench({ filled = {}, scoring = {}, locusId, keeps = true }: Given = {}) {
  const all = [fish('1'), fish('2', 'KEEPER'), fish('3')];
  const drafts = new Map<string, Filled>([['1', { ...blank, ...filled }]]);
  const at: string[] = [];
  const said: string[] = [];
  const entered: unknown[][] = [];
  const enter = (...given: unknown[]) => {
    entered.push(given);
    return Promise.resolve(keeps);
  };
  const hand: CardInHand = {
    ...{ all, fish: all[0], index: 0, filled: drafts.get('1')!, locusId: locusId ?? null },
    scoring: {
      ...{ sheet: null, sheetTraits: [], traits: [], values: new Map(), slips: new Map() },
      ...{ scored: nothingScored, left: null, ...scoring },
    },
    place: {
      goTo: (id) => void at.push(id),
      fill: (id, next) => void drafts.set(id, next(drafts.get(id) ?? blank)),
    },
    entries: {
      decide: (one, ...rest) => enter('decide', one.id, ...rest),
      score: (one, scored) => enter('score', one.id, scored),
      undo: () => Promise.resolve({ subject: '3', label: 'T-3: kept' } as never),
    },
    say: (words) => void said.push(words),
  };
  return { hand, drafts, at, said, entered };
}

const scored = { look: null, plain: new Map([['spread', 170]]) };

describe('what is done with the fish in hand', () => {
  it('a decision goes to the next fish that is not sorted, and leaves nothing filled in', () => {
    const { hand, drafts, at, said, entered } = bench({ filled: { reason: ' wide ' } });
    decide(hand, 'KEEPER');
    expect(entered).toEqual([['decide', '1', 'KEEPER', 'wide', nothingScored, null]]);
    expect([at, said]).toEqual([['3'], ['T-1 keeper. T-3']]);
    expect(drafts.get('1')).toEqual(blank);
  });

  it('what the device could not keep is filled in again, and the fish is in hand again', async () => {
    const { hand, drafts, at } = bench({ filled: { reason: 'wide' }, keeps: false });
    decide(hand, 'KEEPER');
    await Promise.resolve();
    expect([drafts.get('1')?.reason, at]).toEqual(['wide', ['3', '1']]);
  });

  it('a cull without a reason asks for it; a reason that is tapped then culls', () => {
    const { hand, drafts, entered, said } = bench();
    decide(hand, 'CULLED');
    expect([entered, drafts.get('1')?.culling, said]).toEqual([
      [],
      true,
      ['Cull: choose a reason'],
    ]);
    const asked = bench({ filled: { culling: true }, locusId: 'dt' });
    pick(asked.hand, { words: 'split', phenotype: 'split' });
    expect(asked.entered[0]?.slice(2, 4)).toEqual(['CULLED', 'split']);
    expect(asked.entered[0]?.at(-1)).toEqual({ locusId: 'dt', phenotype: 'split' });
  });

  it('a reason that is tapped before stands for the decision that follows', () => {
    const { hand, drafts, entered } = bench({ filled: { seen: 'plain' } });
    pick(hand, { words: 'stunted', phenotype: null });
    expect(entered).toEqual([]);
    expect(drafts.get('1')).toMatchObject({ reason: 'stunted', seen: 'plain' });
  });

  it('moving on enters what was scored, and only that', () => {
    const without = bench();
    move(without.hand, 1);
    expect([without.entered, without.at, without.said]).toEqual([[], ['2'], ['T-2']]);
    const withScore = bench({ scoring: { scored } });
    move(withScore.hand, 1);
    expect([withScore.entered, withScore.at]).toEqual([[['score', '1', scored]], ['2']]);
    const first = bench();
    move(first.hand, -1);
    expect([first.at, first.said]).toEqual([['1'], ['No more fish in this direction']]);
  });

  it('nothing is entered over a slip, a mark on another sheet or a note alone', () => {
    const slip = bench({ scoring: { scored, slips: new Map([['spread', 'Too wide.']]) } });
    move(slip.hand, 1);
    expect([slip.entered, slip.at, slip.said]).toEqual([[], [], ['Too wide.']]);
    const left = bench({ scoring: { left: 'Marked elsewhere.' } });
    decide(left.hand, 'KEEPER');
    expect([left.entered, left.said]).toEqual([[], ['Marked elsewhere.']]);
    const alone = bench({ filled: { note: 'pale' }, scoring: { sheet: {} as never } });
    move(alone.hand, 1);
    expect([alone.at, alone.drafts.get('1')?.noteAlone]).toEqual([[], true]);
  });

  it('undoing goes back to the fish it was about', async () => {
    const { hand, at, said } = bench({ filled: { culling: true } });
    await undo(hand);
    expect([at, said]).toEqual([['3'], ['Undone: T-3: kept']]);
  });

  it('a fault is marked and unmarked', () => {
    const { hand, drafts } = bench({ filled: { noteAlone: true } });
    toggleFault(hand, 'blind');
    expect(drafts.get('1')).toMatchObject({ faultIds: new Set(['blind']), noteAlone: false });
    toggleFault(hand, 'blind');
    expect(drafts.get('1')?.faultIds.size).toBe(0);
  });
});
