import { clsx } from 'clsx';
import type { ReactNode, RefObject } from 'react';
import styles from './charts.module.css';

interface PlotFigureProps {
  readonly title: string;
  /** Measures the width that the plot may take. */
  readonly figure: RefObject<HTMLDivElement | null>;
  readonly width: number;
  readonly height: number;
  /** Where the same figures can be read. */
  readonly sameFigures?: string;
  /** Between title and plot. */
  readonly above?: ReactNode;
  /** The key, and the table of the same figures. */
  readonly below?: ReactNode;
  /** What is drawn. */
  readonly children: ReactNode;
}

/** A plot with its title. The drawing is one picture to a screen reader: its figures stand in a table. */
export function PlotFigure(props: PlotFigureProps) {
  const { title, sameFigures = 'The table below has the same figures.' } = props;
  return (
    <figure className={clsx(styles['plot'], 'lw-drawing')} ref={props.figure}>
      <figcaption>{title}</figcaption>
      {props.above}
      <svg
        width={props.width}
        height={props.height}
        role="img"
        aria-label={`${title}. ${sameFigures}`}
      >
        {props.children}
      </svg>
      {props.below}
    </figure>
  );
}
