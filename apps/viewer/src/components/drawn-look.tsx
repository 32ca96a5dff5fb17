import { type NamedLook, notDrawn, showsOf } from '@linewright/pictures';
import { DrawnFish } from '../drawings/index.js';
import styles from './drawn-look.module.css';

interface DrawnLookProps {
  words: string;
  /** What it is at each locus. */
  parts: readonly NamedLook[];
}

/** A look in words, with a drawing before them where something of it can be drawn. */
export function DrawnLook({ words, parts }: DrawnLookProps) {
  const shows = showsOf(parts);
  const isDrawn = notDrawn(shows).length < Object.keys(shows).length;
  return (
    <span className={styles['look']}>
      {isDrawn && <DrawnFish shows={shows} words={null} />}
      <span>{words}</span>
    </span>
  );
}
