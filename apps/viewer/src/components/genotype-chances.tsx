import { chanceText } from '../wording/chances.js';
import styles from './genotype-chances.module.css';

interface Chance {
  genotype: string;
  phenotype: string;
  probability: number;
  standardError: number | null;
}

/** "Dt/dt 66.7 % single tail", likeliest first; a sampled figure carries its error. */
export function GenotypeChances({ chances }: { chances: readonly Chance[] }) {
  const shown = chances.filter((one) => one.probability >= 0.0005);
  return (
    <ul className={styles['chances']}>
      {shown.map((one) => (
        <li key={one.genotype}>
          <span className="lw-symbol">{one.genotype}</span>{' '}
          <strong>{chanceText(one.probability)}</strong>
          {one.standardError !== null && (
            <span className="lw-quiet"> ± {(one.standardError * 100).toFixed(1)}</span>
          )}{' '}
          <span className="lw-quiet">{one.phenotype}</span>
        </li>
      ))}
    </ul>
  );
}
