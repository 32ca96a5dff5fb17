import { useId } from 'react';
import { PathWords } from './path-words.js';
import { PedigreeKey } from './pedigree-key.js';
import { PedigreeStage } from './pedigree-stage.js';
import { PedigreeTable } from './pedigree-table.js';
import { SelectedFish } from './selected-fish.js';
import { StageTools } from './stage-tools.js';
import type { PedigreeDrawingProps } from './types.js';
import { opensPage, useChosenNode } from './use-chosen-node.js';
import { useDrawnPedigree, useFolds } from './use-drawn-pedigree.js';
import { useStage } from './use-stage.js';
import styles from './pedigree.module.css';

const NO_PICTURES: ReadonlyMap<string, string> = new Map();

/** Ancestors and descendants of a fish, each drawn once, with the paths that make F and a planned brood on request. */
export function PedigreeDrawing(props: PedigreeDrawingProps) {
  const title = props.title ?? 'Pedigree';
  const titleId = useId();
  const folds = useFolds();
  const drawn = useDrawnPedigree(props, folds.expanded);
  const stage = useStage(drawn.scene);
  const chosen = useChosenNode(props, drawn, folds, stage);
  const { scene, steps, names } = drawn;
  const goToFocus = (): void => {
    const node = drawn.byId.get(props.focusId);
    if (node !== undefined) stage.centreOn(node.x, node.y);
  };
  return (
    <figure className="lw-drawing" aria-labelledby={titleId}>
      <div className={styles['stage-head']}>
        <figcaption id={titleId}>{title}</figcaption>
        <StageTools stage={stage} goToFocus={goToFocus} folds={folds} />
      </div>
      <div className={styles['stage']} style={{ height: props.height ?? 'min(76vh, 720px)' }}>
        <PedigreeStage
          {...{ title, drawn, chosen, stage, goToFocus }}
          id={titleId}
          pictures={props.pictures ?? NO_PICTURES}
        />
      </div>
      {chosen.node !== undefined && (
        <SelectedFish
          node={chosen.node}
          kin={steps.kinOf(chosen.id)}
          names={names}
          opens={chosen.node.kind === 'fold' || opensPage(chosen.node, drawn.marks)}
          onOpen={chosen.open}
          {...(props.face !== undefined && { face: props.face })}
        />
      )}
      <PathWords highlights={drawn.highlights} names={names} />
      {scene.leftOut > 0 && (
        <p className="lw-quiet-text">
          {scene.leftOut} fish that are neither ancestors nor descendants are not drawn.
        </p>
      )}
      <PedigreeKey />
      <PedigreeTable
        {...{ scene, steps, names, title }}
        marks={drawn.marks}
        onOpenFish={props.onOpenFish}
      />
    </figure>
  );
}
