import { describe, expect, it } from 'vitest';
import { expectGoodPassword } from './password-rules.js';

describe('a new password', () => {
  it.each([
    'password12',
    '1234567890',
    'qwertyuiop',
    'aaaaaaaaaaaaaaaa',
    'Linewright1',
    'summer2026!',
  ])('%s is refused as easily guessed', async (password) => {
    await expect(expectGoodPassword(password, 'Ada')).rejects.toThrow(/easily guessed/);
  });

  it('is refused where it is mostly the name of the person', async () => {
    await expect(expectGoodPassword('Runa Solberg 1', 'Runa Solberg')).rejects.toThrow(/guessed/);
  });

  it('is refused when it is short, by its length', async () => {
    await expect(expectGoodPassword('zq8!kd0', 'Ada')).rejects.toThrow('7 characters');
  });

  it.each(['correct-horse-pond', 'my red veiltail', 'zq8!kd0wPx'])('%s is taken', async (good) => {
    await expect(expectGoodPassword(good, 'Ada')).resolves.toBeUndefined();
  });
});
