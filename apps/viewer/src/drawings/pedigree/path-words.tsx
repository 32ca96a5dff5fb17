import type { PathHighlight } from '@linewright/pedigree-layout';
import type { NodeNames } from './node-names.js';
import { PATH_STYLES } from './pedigree-lines.js';
import styles from './pedigree.module.css';

interface PathWordsProps {
  readonly highlights: readonly PathHighlight[];
  readonly names: NodeNames;
}

/** The highlighted paths in words, each beside a sample of its line. */
export function PathWords({ highlights, names }: PathWordsProps) {
  if (highlights.length === 0) return null;
  return (
    <ol className={styles['path-words']} aria-label="Highlighted paths">
      {highlights.map((highlight, i) => (
        <li key={i}>
          <svg
            className={styles[`path-${i % PATH_STYLES}`]}
            width="44"
            height="14"
            aria-hidden="true"
          >
            <path className={styles['path-line']} d="M2 7H42" />
          </svg>
          <span>
            {highlights.length > 1 ? `${i + 1}. ` : ''}
            {highlight.fishIds.map((id, k) => (
              <span key={k}>
                {k > 0 && (highlight.steps[k - 1]?.direction === 'down' ? ' ↓ ' : ' ↑ ')}
                {id === highlight.ancestorId ? <strong>{names.tag(id)}</strong> : names.tag(id)}
                {id === highlight.ancestorId && ' (common ancestor)'}
              </span>
            ))}
            {highlight.missing.length > 0 &&
              ` — not all of it is drawn: ${highlight.missing.length} missing`}
          </span>
        </li>
      ))}
    </ol>
  );
}
