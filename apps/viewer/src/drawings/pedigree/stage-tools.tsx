import { ZOOM_IN, ZOOM_OUT } from './pedigree-keys.js';
import type { Folds } from './use-drawn-pedigree.js';
import type { Stage } from './use-stage.js';
import styles from './pedigree.module.css';

interface StageToolsProps {
  readonly stage: Stage;
  readonly goToFocus: () => void;
  readonly folds: Folds;
}

/** Zoom and view by buttons, for whoever has neither wheel nor keyboard. */
export function StageTools({ stage, goToFocus, folds }: StageToolsProps) {
  return (
    <div className={styles['stage-tools']} role="group" aria-label="View">
      <button type="button" onClick={() => stage.zoomBy(ZOOM_IN)} aria-label="Zoom in">
        +
      </button>
      <button type="button" onClick={() => stage.zoomBy(ZOOM_OUT)} aria-label="Zoom out">
        −
      </button>
      <button type="button" onClick={() => stage.fit()}>
        All
      </button>
      <button type="button" onClick={goToFocus}>
        Focus
      </button>
      {folds.expanded.size > 0 && (
        <button type="button" onClick={folds.foldAll}>
          Fold
        </button>
      )}
    </div>
  );
}
