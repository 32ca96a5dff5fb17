import { useWatch } from 'react-hook-form';
import type { SeenPhenotype } from '../../api/carriers.js';
import type { FishFacts } from '../../api/fish.js';
import type { LocusChoice } from '../../api/heredity.js';
import { notDrawn, type Shows } from '@linewright/pictures';
import { DrawnFish } from '../../drawings/index.js';
import { latestLooks } from './latest-looks.js';
import styles from './seen-drawn.module.css';

interface SeenDrawnProps {
  sex: FishFacts['sex'];
  seen: readonly SeenPhenotype[];
  nameOf: (locusId: string) => string;
}

/** A fish as it was last seen to look, drawn; the table beside it says the same. */
export function SeenDrawn({ sex, seen, nameOf }: SeenDrawnProps) {
  const looks = latestLooks(seen);
  const shows: Shows = Object.fromEntries(looks.map((one) => [one.locusId, one.phenotype]));
  const left = notDrawn(shows).map(nameOf);
  if (looks.length === left.length) return null;
  return (
    <figure className={styles['drawn']}>
      <DrawnFish
        size="large"
        shows={shows}
        words={looks.map(({ name }) => name).join(', ')}
        {...(sex === 'FEMALE' && { sex: 'female' })}
      />
      <figcaption className="lw-small">
        Drawn from what was last seen, not a photo: what is not recorded is drawn plain
        {left.length > 0 && `, and ${left.join(', ')} has no drawing`}.
      </figcaption>
    </figure>
  );
}

/** The look that is chosen in the form, drawn. */
export function LookDrawn({ locus }: { locus: LocusChoice | undefined }) {
  const chosen = useWatch({ name: 'phenotype' }) as string;
  const look = locus?.visible.find(({ id }) => id === chosen);
  if (locus === undefined || look === undefined) return null;
  const shows = { [locus.id]: look.id };
  if (notDrawn(shows).length > 0) return null;
  return <DrawnFish size="large" shows={shows} words={look.name} />;
}
