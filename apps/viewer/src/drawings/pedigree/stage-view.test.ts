import { describe, expect, it } from 'vitest';
import { firstView, shiftToReveal, wholeView } from './stage-view.js';

const stage = { width: 824, height: 624 };
const bounds = (width: number, height: number) => ({ x: 0, y: 0, width, height });

describe('wholeView', () => {
  it('is as large as the tighter side allows', () => {
    expect(wholeView(bounds(1540, 100), stage).scale).toBe(0.5);
    expect(wholeView(bounds(100, 2376), stage).scale).toBe(0.25);
  });

  it('does not blow a small drawing up', () => {
    expect(wholeView(bounds(50, 50), stage).scale).toBe(1.25);
  });
});

describe('firstView', () => {
  it('shows the whole drawing where it can be read', () => {
    expect(firstView(bounds(900, 400), { x: 0, y: 0 }, stage)).toEqual(
      wholeView(bounds(900, 400), stage),
    );
  });

  it('shows the focus of a large drawing in the middle, at a readable size', () => {
    expect(firstView(bounds(6000, 6000), { x: 3000, y: 2000 }, stage)).toEqual({
      x: 3000,
      y: 2000,
      scale: 0.75,
    });
  });

  it('shows no emptiness beyond the edge, however near it the focus stands', () => {
    const { x, y } = firstView(bounds(6000, 6000), { x: 0, y: 6000 }, stage);
    expect(x - stage.width / 0.75 / 2).toBe(-50);
    expect(y + stage.height / 0.75 / 2).toBe(6014);
  });

  it('puts the shorter side in the middle, and the middle where the focus is not drawn', () => {
    expect(firstView(bounds(6000, 100), { x: 3000, y: 90 }, stage).y).toBe(50);
    expect(firstView(bounds(6000, 6000), undefined, stage)).toMatchObject({ x: 3000, y: 3000 });
  });
});

describe('shiftToReveal', () => {
  it('leaves what is well inside where it is', () => {
    expect(shiftToReveal({ x: 60, y: 564 }, stage)).toEqual({ x: 0, y: 0 });
  });

  it('moves just enough for the rest', () => {
    expect(shiftToReveal({ x: -10, y: 600 }, stage)).toEqual({ x: 70, y: -36 });
    expect(shiftToReveal({ x: 900, y: 300 }, stage)).toEqual({ x: -136, y: 0 });
  });
});
