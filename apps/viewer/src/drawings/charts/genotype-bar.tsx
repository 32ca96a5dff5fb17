import { clsx } from 'clsx';
import { useId } from 'react';
import { FillDefinitions, fillId } from './fills.js';
import styles from './genotype-bar.module.css';

export interface GenotypeShare {
  readonly genotype: string;
  readonly probability: number;
}

export interface GenotypeBarProps {
  readonly shares: readonly GenotypeShare[];
  /** Genotypes in the order in which fills are given out, so that bars of one locus read alike. */
  readonly order: readonly string[];
}

/** Probabilities of a fish's genotypes as one divided bar; the figures stand beside it in text. */
export function GenotypeBar({ shares, order }: GenotypeBarProps) {
  const scope = useId();
  const parts = order.flatMap((genotype, fill) => {
    const share = shares.find((one) => one.genotype === genotype)?.probability ?? 0;
    return share > 0 ? [{ genotype, fill, share }] : [];
  });
  const starts = parts.map((_, i) => parts.slice(0, i).reduce((sum, one) => sum + one.share, 0));
  return (
    <svg className={clsx(styles['bar'], 'lw-drawing')} width="100%" height="16" aria-hidden="true">
      <FillDefinitions scope={scope} />
      {parts.map(({ genotype, fill, share }, i) => (
        <rect
          key={genotype}
          x={`${(starts[i] ?? 0) * 100}%`}
          y="1"
          width={`${share * 100}%`}
          height="14"
          fill={`url(#${fillId(scope, fill)})`}
          stroke="var(--d-edge, var(--lw-edge))"
        />
      ))}
    </svg>
  );
}
