import { clsx } from 'clsx';
import { useId } from 'react';
import { FillDefinitions } from './fills.js';
import { Swatch } from './class-bars.js';
import styles from './punnett-square.module.css';
import chartsStyles from './charts.module.css';
import tableAlternativeStyles from '../table-alternative.module.css';

export interface GameteList {
  readonly tag: string;
  readonly gametes: readonly { readonly label: string; readonly fraction: string }[];
}

export interface PunnettSquareProps {
  readonly sire: GameteList;
  readonly dam: GameteList;
  /** Rows are the dam's gametes, columns the sire's. */
  readonly cells: readonly (readonly { readonly genotype: string; readonly classId: string }[])[];
  readonly classes: readonly {
    readonly id: string;
    readonly label: string;
    readonly fraction: string;
  }[];
  readonly title?: string;
}

/** Letter of a class, so that cells tell their class without their pattern. */
const letter = (index: number): string => String.fromCharCode(65 + (index % 26));

/** Gametes of the sire across, of the dam down, and the young each meeting makes. */
export function PunnettSquare({ sire, dam, cells, classes, title }: PunnettSquareProps) {
  const scope = useId();
  const index = new Map(classes.map((one, i) => [one.id, i] as const));
  const name = title ?? `Punnett square: ${sire.tag} × ${dam.tag}`;
  return (
    <figure className={clsx(styles['punnett'], 'lw-drawing')}>
      <figcaption>{name}</figcaption>
      <svg width="0" height="0" className={chartsStyles['definitions']} aria-hidden="true">
        <FillDefinitions scope={scope} />
      </svg>
      <div
        className={tableAlternativeStyles['table-scroll']}
        tabIndex={0}
        role="region"
        aria-label={name}
      >
        <table>
          <thead>
            <tr>
              <td className={styles['corner']}>
                dam {dam.tag} ↓ · sire {sire.tag} →
              </td>
              {sire.gametes.map((gamete, i) => (
                <th key={i} scope="col">
                  {gamete.label}
                  <small>{gamete.fraction}</small>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {dam.gametes.map((gamete, r) => (
              <GameteRow
                key={r}
                gamete={gamete}
                cells={cells}
                r={r}
                index={index}
                classes={classes}
                scope={scope}
              />
            ))}
          </tbody>
        </table>
      </div>
      <ClassLegend classes={classes} scope={scope} />
    </figure>
  );
}

function ClassLegend({
  classes,
  scope,
}: {
  classes: readonly { readonly id: string; readonly label: string; readonly fraction: string }[];
  scope: string;
}) {
  return (
    <ul className={chartsStyles['legend']}>
      {classes.map((one, i) => (
        <li key={one.id}>
          <Swatch scope={scope} fill={i} /> <b>{letter(i)}</b> {one.label}{' '}
          <span>{one.fraction}</span>
        </li>
      ))}
    </ul>
  );
}

interface GameteRowProps {
  gamete: { readonly label: string; readonly fraction: string };
  cells: readonly (readonly { readonly genotype: string; readonly classId: string }[])[];
  r: number;
  index: Map<string, number>;
  classes: readonly { readonly id: string; readonly label: string; readonly fraction: string }[];
  scope: string;
}

function GameteRow({ gamete, cells, r, index, classes, scope }: GameteRowProps) {
  return (
    <tr>
      <th scope="row">
        {gamete.label}
        <small>{gamete.fraction}</small>
      </th>
      {(cells[r] ?? []).map((cell, c) => {
        const at = index.get(cell.classId) ?? 0;
        return (
          <td key={c}>
            <span className={styles['class']} aria-label={classes[at]?.label ?? cell.classId}>
              <Swatch scope={scope} fill={at} />
              <b>{letter(at)}</b>
            </span>
            {cell.genotype}
          </td>
        );
      })}
    </tr>
  );
}
