import type { Sex } from '@linewright/pedigree';
import styles from './pedigree.module.css';

export interface SexSymbolProps {
  readonly sex: Sex;
  readonly x: number;
  readonly y: number;
  readonly size?: number;
  readonly className?: string | undefined;
}

/** Square male, circle female, diamond sex unknown: standard pedigree nomenclature (Bennett et al. 1995, 2008, 2022). */
export function SexSymbol({ sex, x, y, size = 26, className = styles['symbol'] }: SexSymbolProps) {
  const half = size / 2;
  if (sex === 'female') return <circle className={className} cx={x} cy={y} r={half} />;
  if (sex === 'male') {
    const side = size - 2;
    return (
      <rect className={className} x={x - side / 2} y={y - side / 2} width={side} height={side} />
    );
  }
  const tip = half + 1;
  const points = `${x},${y - tip} ${x + tip},${y} ${x},${y + tip} ${x - tip},${y}`;
  return <polygon className={className} points={points} />;
}

/** Text form of a symbol for labels; the selector keeps browsers from drawing an emoji. */
export const SEX_GLYPH: Readonly<Record<Sex, string>> = {
  male: '\u2642\uFE0E',
  female: '\u2640\uFE0E',
  unknown: '?',
};
