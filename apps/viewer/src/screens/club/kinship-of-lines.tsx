import type { CSSProperties } from 'react';
import type { ClubLine } from '../../api/club.js';
import { Section } from '../../components/section.js';
import { leastPercent } from '../../wording/inbreeding-words.js';
import styles from './club.module.css';

/** Mean coancestry between every two lines, darker the closer they are. */
export function KinshipOfLines({ lines }: { lines: readonly ClubLine[] }) {
  const highest = Math.max(...lines.flatMap(({ kinship }) => kinship.map((value) => value ?? 0)));
  return (
    <Section title="Kinship between lines">
      <p className="lw-words">
        Mean coancestry of the fish in use of one line with those of the other; within a line each
        fish with itself too. Two lines of 0 have no ancestor in common on record; ≥ marks lines
        with fish of unknown origin behind them, which count as unrelated.
      </p>
      <div className="lw-table-frame" tabIndex={0} role="group" aria-label="Kinship between lines">
        <table className={`lw-table ${styles['kinship']}`}>
          <caption className="lw-heard">Kinship between lines</caption>
          <thead>
            <tr>
              <th scope="col">Line</th>
              {lines.map(({ id, code, keeper }) => (
                <th key={id} scope="col" className="lw-number" title={keeper.name}>
                  {code}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {lines.map((line) => (
              <tr key={line.id}>
                <th scope="row">
                  {line.code} <span className="lw-quiet">{line.keeper.name}</span>
                </th>
                {line.kinship.map((value, column) => (
                  <td key={lines[column]!.id} className="lw-number">
                    <span className={styles['square']} style={closeness(value, highest)}>
                      {value === null
                        ? '–'
                        : leastPercent(value, !line.atLeast && !lines[column]!.atLeast, 1)}
                    </span>
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </Section>
  );
}

const closeness = (value: number | null, highest: number): CSSProperties =>
  ({ '--close': highest > 0 ? (value ?? 0) / highest : 0 }) as CSSProperties;
