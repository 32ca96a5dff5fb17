import type { ReactNode } from 'react';
import type { NodeKin, SceneNode } from '@linewright/pedigree-layout';
import { sexName } from '../figures.js';
import type { NodeNames } from './node-names.js';
import styles from '../selected.module.css';

export interface SelectedFishProps {
  readonly node: SceneNode;
  readonly kin: NodeKin;
  readonly names: NodeNames;
  /** Whether there is something to open. */
  readonly opens: boolean;
  readonly onOpen: (id: string) => void;
  readonly face?: (id: string) => ReactNode;
}

/** The selected fish in words, with a large button to open it: a tap on the drawing only selects. */
export function SelectedFish({ node, kin, names, opens, onOpen, face }: SelectedFishProps) {
  const fold = node.kind === 'fold';
  const planned = !fold && node.planned;
  const parents =
    kin.sireId === null && kin.damId === null
      ? 'parents not shown'
      : `${names.tag(kin.sireId)} × ${names.tag(kin.damId)}`;
  const about = fold
    ? node.memberTags.join(', ')
    : [planned ? 'planned brood' : sexName(node.sex), ...node.label].join(' · ');
  return (
    <div className={styles['selected']} aria-live="polite">
      {!fold && !planned && face?.(node.id)}
      <div>
        <strong>{names.tag(node.id)}</strong> <span>{about}</span>
        <div className="lw-quiet-text">{parents}</div>
      </div>
      {opens && (
        <button type="button" onClick={() => onOpen(node.id)}>
          {fold ? 'Show each' : `Open ${node.tag}`}
        </button>
      )}
    </div>
  );
}
