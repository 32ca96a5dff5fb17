import type { ReactNode } from 'react';
import type { Sex } from '@linewright/pedigree';
import { SEX_GLYPH, SexSymbol } from './symbols.js';
import styles from './pedigree.module.css';

/** What the symbols mean. */
export function PedigreeKey() {
  return (
    <details>
      <summary>Symbols and keys</summary>
      <ul className={styles['key-list']}>
        <FishSymbols />
        <LineSymbols />
      </ul>
      <p className={styles['key-text']}>
        Keys: arrow up, nearest parent; down, nearest young; left and right, along the generation; S
        sire; D dam; M mate; Enter opens the fish or shows the sibs; + and − zoom; 0 shows all; F
        goes to the fish this drawing is about.
      </p>
      <p className={styles['key-text']}>
        Symbols after the standard pedigree nomenclature of human genetics (Bennett et al. 1995,
        2008, 2022). No symbol is filled or dotted: there a filled one is affected, and a dot means
        carrier. The fish this drawing is about has the arrow and a thicker outline; a brood that is
        not bred yet has a broken one and dotted lines, and the n of a number not known. The other
        signs inside the symbols are ours.
      </p>
    </details>
  );
}

function Sample({
  children,
  words,
  className,
}: {
  children: ReactNode;
  words: string;
  className?: string | undefined;
}) {
  return (
    <li className={className}>
      <svg width="40" height="32" aria-hidden="true">
        {children}
      </svg>
      {words}
    </li>
  );
}

function SignedSymbol({ sex, sign }: { sex: Sex; sign: string }) {
  return (
    <>
      <SexSymbol sex={sex} x={20} y={16} size={22} />
      <text className={styles['glyph']} x={20} y={21} textAnchor="middle">
        {sign}
      </text>
    </>
  );
}

function FishSymbols() {
  return (
    <>
      {(['male', 'female', 'unknown'] as const).map((sex) => (
        <Sample key={sex} words={sex === 'unknown' ? 'sex unknown' : sex}>
          <SignedSymbol sex={sex} sign={SEX_GLYPH[sex]} />
        </Sample>
      ))}
      <Sample className={styles['node-unknown']} words="a parent that nobody knows, shared by sibs">
        <SignedSymbol sex="male" sign="?" />
      </Sample>
      <Sample words="fish of unknown origin are behind this F: it is this or more">
        <text className={styles['node-line']} x="20" y="20" textAnchor="middle">
          F ≥
        </text>
      </Sample>
      <Sample words="sibs without young, their number">
        <polygon className={styles['symbol']} points="20,2 34,16 20,30 6,16" />
        <text className={styles['fold-count']} x="20" y="20" textAnchor="middle">
          9
        </text>
      </Sample>
    </>
  );
}

function LineSymbols() {
  return (
    <>
      <Sample words="mates">
        <path className={styles['link']} d="M2 16H38" />
      </Sample>
      <Sample words="mates related by descent">
        <path className={styles['related-outer']} d="M2 16H38" />
        <path className={styles['related-inner']} d="M2 16H38" />
      </Sample>
      <Sample words="planned or looked at, not bred yet">
        <g className={styles['link-planned']}>
          <path className={styles['link']} d="M2 16H38" />
        </g>
      </Sample>
      <Sample words="dead or culled">
        <SexSymbol sex="male" x={20} y={16} size={20} />
        <line className={styles['struck']} x1="6" y1="30" x2="34" y2="2" />
      </Sample>
      <Sample words="the fish this drawing is about">
        <path className={styles['focus-arrow']} d="M8 28L22 14M13 14L22 14L21 22" />
      </Sample>
    </>
  );
}
