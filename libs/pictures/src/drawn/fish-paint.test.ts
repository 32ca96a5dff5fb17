import { catalogue } from '@linewright/heredity';
import { describe, expect, it } from 'vitest';
import { fishLook, notDrawn, type Shows, showsOf } from './fish-look.js';
import { fishLayers } from './fish-paint.js';

const drawn = (shows: Shows, fine = true, beside = {}): string =>
  JSON.stringify(fishLayers(fishLook(shows, beside), fine));

const looks = catalogue.flatMap(({ id, phenotypes }) =>
  phenotypes.map((one) => ({ locus: id, look: one.id, name: one.name })),
);
const severalLooks = catalogue.filter(({ phenotypes }) => phenotypes.length > 1);

describe('a drawn fish', () => {
  it.each(looks)('has a drawing for $locus: $look', ({ locus, look }) => {
    expect(notDrawn({ [locus]: look })).toEqual([]);
  });

  it.each(severalLooks.map(({ id, phenotypes }) => ({ id, phenotypes })))(
    'tells the looks of $id apart, large and small',
    ({ id, phenotypes }) => {
      for (const fine of [true, false])
        expect(new Set(phenotypes.map((one) => drawn({ [id]: one.id }, fine))).size).toBe(
          phenotypes.length,
        );
    },
  );

  it('tells nine classes of iridescence and metallic apart', () => {
    const classes = ['turquoise', 'royal', 'steel'].flatMap((bl) =>
      ['none', 'partial', 'full'].map((mt) => drawn({ bl, mt }, false)),
    );
    expect(new Set(classes).size).toBe(9);
  });

  it('is the same for the same looks, and says what it cannot show', () => {
    const shows = { bl: 'steel', dt: 'double', spotted: 'many-spots' };
    expect(drawn(shows)).toBe(drawn({ ...shows }));
    expect(drawn(shows)).toBe(drawn({ bl: 'steel', dt: 'double' }));
    expect(notDrawn(shows)).toEqual(['spotted']);
    expect(notDrawn({ bl: 'no such look' })).toEqual(['bl']);
  });

  it('spreads its tail as far as it was measured, and has the fins of its sex', () => {
    const at = (spread: number): string => drawn({}, true, { spread });
    expect(new Set([at(90), at(150), at(180)]).size).toBe(3);
    // Nothing measured, and nothing that a tail can have: as where nothing is known.
    expect(at(0)).toBe(drawn({}));
    expect(drawn({}, true, { sex: 'female' })).not.toBe(drawn({}, true, { sex: 'male' }));
  });

  it('has two lobes and a wide fin on the back where the tail is double', () => {
    const fins = (shows: Shows): string =>
      fishLayers(fishLook(shows), true).find(({ part }) => part === 'fins')!.d;
    const outlines = (d: string): number => d.split('M').length - 1;
    expect(outlines(fins({ dt: 'double' }))).toBe(outlines(fins({ dt: 'single' })) + 1);
  });

  it('is written in numbers that a browser can read', () => {
    for (const { locus, look } of looks)
      for (const { d, opacity } of fishLayers(fishLook({ [locus]: look }), true)) {
        expect(d).toMatch(/^M[-\d. MLQCZaq]+$/);
        expect(opacity).toBeGreaterThan(0);
        expect(opacity).toBeLessThanOrEqual(1);
      }
  });
});

describe('looks named by a class', () => {
  it('are read by name and by id; hidden ones and those of several loci together show nothing', () => {
    const named = looks.map(({ locus, name }) => ({ locusIds: [locus], phenotype: name }));
    for (const [k, { locus, look }] of looks.entries()) {
      expect(showsOf([named[k]!])).toEqual({ [locus]: look });
      expect(showsOf([{ locusIds: [locus], phenotype: look }])).toEqual({ [locus]: look });
    }
    expect(showsOf([{ locusIds: ['m'], phenotype: 'melano (dense black)', hidden: true }])).toEqual(
      {},
    );
    expect(showsOf([{ locusIds: ['bl', 'mt'], phenotype: 'copper' }])).toEqual({});
  });
});
