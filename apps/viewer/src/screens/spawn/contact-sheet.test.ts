import { describe, expect, it } from 'vitest';
import type { FishPicture } from '../../api/photos.js';
import { picturedWords, shownAs } from './contact-sheet.js';

const photo: FishPicture['photo'] = {
  id: 'p',
  tinyPath: '/photos/p/tiny',
  smallPath: '/photos/p/small',
  takenOn: null,
  caption: null,
};
const look = { locusId: 'bl', phenotype: 'steel', name: 'steel blue' };

describe('a contact sheet', () => {
  it('shows a photo before a drawing, and a drawing only of looks that can be drawn', () => {
    expect(shownAs(undefined)).toBe('none');
    expect(shownAs({ fishId: 'f', photo, looks: [look] })).toBe('photo');
    expect(shownAs({ fishId: 'f', photo: null, looks: [look] })).toBe('drawn');
    const own = { locusId: 'spotted', phenotype: 'many', name: 'many spots' };
    expect(shownAs({ fishId: 'f', photo: null, looks: [own] })).toBe('none');
  });

  it('says how many of each there are', () => {
    expect(picturedWords(['photo', 'drawn', 'photo', 'none'])).toBe(
      '2 with a picture, 1 drawn from what was seen, 1 with neither.',
    );
    expect(picturedWords(['photo'])).toBe('1 with a picture.');
  });
});
