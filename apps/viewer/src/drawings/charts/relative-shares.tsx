import { clsx } from 'clsx';
import * as d3 from 'd3';
import type { ReactNode } from 'react';
import { percent } from '../figures.js';
import styles from './relative-shares.module.css';

export interface RelativeShare {
  readonly id: string;
  /** The fish, as a link where it can be opened. */
  readonly fish: ReactNode;
  readonly relation: string;
  readonly scores: number;
  /** By how much its scores move the value, in units of the trait; up or down. */
  readonly moves: number;
}

export interface RelativeSharesProps {
  readonly title: string;
  readonly relatives: readonly RelativeShare[];
  /** What the relatives that are not listed move together. */
  readonly others: { readonly count: number; readonly moves: number } | null;
  /** A difference with its sign and unit. */
  readonly words: (value: number) => string;
}

/** Each part of all that is moved, up and down alike; 0 where nothing is. */
export function sharesOfMoves(moves: readonly number[]): number[] {
  const all = d3.sum(moves, Math.abs);
  return moves.map((move) => (all === 0 ? 0 : Math.abs(move) / all));
}

/** 0 in one place down the column, a hundredth kept free at both ends. */
export function moveScale(moves: readonly number[]): d3.ScaleLinear<number, number> {
  const [least, most] = [Math.min(0, ...moves), Math.max(0, ...moves)];
  return d3.scaleLinear(least === most ? [-1, 1] : [least, most], [1, 99]);
}

/** Which relatives' scores make a value, and how much each moves it: a table whose bars are its picture. */
export function RelativeShares({ title, relatives, others, words }: RelativeSharesProps) {
  const moves = [...relatives.map((one) => one.moves), ...(others === null ? [] : [others.moves])];
  const shares = sharesOfMoves(moves);
  const x = moveScale(moves);
  return (
    <figure className={clsx(styles['relatives'], 'lw-drawing')}>
      <figcaption>{title}</figcaption>
      <table>
        <thead>
          <tr>
            <th scope="col">Scores of</th>
            <th scope="col" className="lw-drawing-number">
              Moves it by
            </th>
            <th scope="col" className="lw-drawing-number">
              Part
            </th>
            <td aria-hidden="true" />
          </tr>
        </thead>
        <tbody>
          {relatives.map((one, k) => (
            <tr key={one.id}>
              <th scope="row">
                {one.fish}{' '}
                <small>
                  {one.relation}, {one.scores === 1 ? '1 score' : `${one.scores} scores`}
                </small>
              </th>
              <Cells move={one.moves} share={shares[k] ?? 0} x={x} words={words} />
            </tr>
          ))}
          {others !== null && (
            <tr>
              <th scope="row">
                {others.count === 1 ? '1 other fish' : `${others.count} other fish`}
              </th>
              <Cells move={others.moves} share={shares.at(-1) ?? 0} x={x} words={words} />
            </tr>
          )}
        </tbody>
      </table>
    </figure>
  );
}

function Cells({
  move,
  share,
  x,
  words,
}: {
  move: number;
  share: number;
  x: d3.ScaleLinear<number, number>;
  words: (value: number) => string;
}) {
  return (
    <>
      <td className="lw-drawing-number">{words(move)}</td>
      <td className="lw-drawing-number">{percent(share)}</td>
      <td aria-hidden="true" className={styles['move-bar']}>
        <svg width="100%" height="16">
          <rect
            className={move < 0 ? styles['moves-down'] : styles['moves-up']}
            x={`${Math.min(x(0), x(move))}%`}
            width={`${Math.abs(x(move) - x(0))}%`}
            y="2"
            height="12"
          />
          <line className={styles['moves-nothing']} x1={`${x(0)}%`} x2={`${x(0)}%`} y2="16" />
        </svg>
      </td>
    </>
  );
}
