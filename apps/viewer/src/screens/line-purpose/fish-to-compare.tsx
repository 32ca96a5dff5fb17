import { Button } from '@mantine/core';
import type { PurposeTrait, SeenFish } from '../../api/line-purpose.js';
import { SexMark } from '../../components/fish-marks.js';
import { ageToday } from '../../wording/figures.js';
import { scoreText } from '../../wording/scores.js';
import { comparedFish } from './compared-fish.js';
import { partKey, type PurposeValues } from './purpose-values.js';
import type { Looks } from './use-look-choices.js';
import styles from './line-purpose.module.css';

interface FishToCompareProps {
  fish: SeenFish;
  wishes: PurposeValues;
  traits: readonly PurposeTrait[];
  looks: Looks;
  onChoose: () => void;
}

/** One of two fish: what is known of it in what is wished for, and its picture. */
export function FishToCompare({ fish, wishes, traits, looks, onChoose }: FishToCompareProps) {
  const [photo] = fish.photos;
  const known = comparedFish(fish);
  const ofTraits = wishes.traits.flatMap(({ traitId }) => {
    const trait = traits.find(({ id }) => id === traitId);
    const score = known.traits.get(traitId);
    if (trait === undefined) return [];
    return [
      { name: trait.name, value: score === undefined ? 'not scored' : scoreText(score, trait) },
    ];
  });
  const loci = new Set(
    wishes.looks.flatMap(({ parts }) => parts.map((part) => part.split(':')[0])),
  );
  const ofLooks = [...known.looks].flatMap(([locusId, phenotype]) => {
    const name = looks.names.get(partKey({ locusId, phenotype }));
    return loci.has(locusId) && name !== undefined ? [name] : [];
  });
  const age = ageToday(fish.hatchDate);
  return (
    <section className={styles['fish']} aria-label={`Fish ${fish.tag}`}>
      <h3>
        {fish.tag} {fish.name}
      </h3>
      {photo !== undefined && (
        <img src={photo.smallPath} alt={photo.caption ?? `Fish ${fish.tag}`} />
      )}
      <p className="lw-quiet">
        <SexMark sex={fish.sex} /> {age}
      </p>
      <dl className={styles['known']}>
        {[
          ...ofTraits,
          { name: 'Seen', value: ofLooks.length === 0 ? 'nothing noted' : ofLooks.join(', ') },
        ].map(({ name, value }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
      <Button className="lw-primary" fullWidth onClick={onChoose} aria-label={`Rather ${fish.tag}`}>
        Rather this one
      </Button>
    </section>
  );
}
