import { catalogue } from '@linewright/heredity';
import { DrawnFish } from '../index.js';

/** Every look of the catalogue, small and large, and some that come together. */
export function DrawnFishStage() {
  const together = [
    {
      words: 'female, short fins, cambodian',
      shows: { lf: 'short', c: 'cambodian', sx: 'female' },
    },
    { words: 'copper double tail', shows: { bl: 'steel', mt: 'full', dt: 'double' } },
    { words: 'royal blue, banded fins', shows: { bl: 'royal', vf: 'variegated' } },
  ];
  return (
    <div className="lw-drawing">
      {together.map(({ words, shows }) => (
        <figure key={words} style={{ margin: 0 }}>
          <DrawnFish shows={shows} words={words} size="large" spread={180} />
          <figcaption>{words}</figcaption>
        </figure>
      ))}
      {catalogue.flatMap(({ id, name, phenotypes }) =>
        phenotypes.map((look) => (
          <span key={`${id} ${look.id}`}>
            <DrawnFish shows={{ [id]: look.id }} words={`${name}: ${look.name}`} />
          </span>
        )),
      )}
    </div>
  );
}
