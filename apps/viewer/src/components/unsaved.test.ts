import { describe, expect, it } from 'vitest';
import { UnsavedForms, type Leaving } from './unsaved.js';

describe('what is typed and saved nowhere', () => {
  it('is known to the sheet that holds it and to the screen, not to another sheet', () => {
    const screen = new UnsavedForms(null);
    const [sheet, other] = [new UnsavedForms(screen), new UnsavedForms(screen)];
    let typed = false;
    const remove = sheet.add(() => typed);
    expect([sheet, screen, other].map((forms) => forms.any('close'))).toEqual([
      false,
      false,
      false,
    ]);
    typed = true;
    expect([sheet, screen, other].map((forms) => forms.any('close'))).toEqual([true, true, false]);
    expect(other.anyOfScreen('close')).toBe(true);
    remove();
    expect([sheet, screen].map((forms) => forms.any('close'))).toEqual([false, false]);
  });

  it('may lie in one form only, and depend on the way out', () => {
    const screen = new UnsavedForms(null);
    screen.add(() => false);
    screen.add((leaving) => leaving !== 'onward');
    const ways: Leaving[] = ['close', 'back', 'reload', 'onward'];
    expect(ways.map((way) => screen.any(way))).toEqual([true, true, true, false]);
  });

  it('leaves Escape to the question while one stands, wherever it was asked', () => {
    const screen = new UnsavedForms(null);
    const [sheet, other] = [new UnsavedForms(screen), new UnsavedForms(screen)];
    const answered = sheet.asks();
    expect([screen, sheet, other].map((forms) => forms.isAsking())).toEqual([true, true, true]);
    answered();
    expect([screen, sheet, other].map((forms) => forms.isAsking())).toEqual([false, false, false]);
  });
});
