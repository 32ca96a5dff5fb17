import { clsx } from 'clsx';
import type { ChosenNode } from './use-chosen-node.js';
import { keyAct, type KeyAct } from './pedigree-keys.js';
import { Scene } from './pedigree-scene.js';
import type { DrawnPedigree } from './use-drawn-pedigree.js';
import type { Stage } from './use-stage.js';
import styles from './pedigree.module.css';

interface PedigreeStageProps {
  readonly id: string;
  readonly title: string;
  readonly drawn: DrawnPedigree;
  readonly chosen: ChosenNode;
  readonly stage: Stage;
  readonly goToFocus: () => void;
  readonly pictures: ReadonlyMap<string, string>;
}

function nodeAt(target: EventTarget): string | null {
  if (!(target instanceof Element)) return null;
  return target.closest('[data-node]')?.getAttribute('data-node') ?? null;
}

/** The drawing itself, with what pointer and keyboard do in it. */
export function PedigreeStage(props: PedigreeStageProps) {
  const { id, title, drawn, chosen, stage } = props;
  const { scene, byId, marks } = drawn;
  const oldest = scene.orientation === 'down' ? 'at the top' : 'at the left';
  return (
    <svg
      ref={stage.svgRef}
      className={clsx(styles['stage-svg'], marks.onPath.size > 0 && styles['has-path'])}
      role="group"
      aria-labelledby={`${id}-name`}
      aria-describedby={`${id}-about`}
      onKeyDown={(event) => {
        const act = keyAct(event, scene.orientation);
        if (act === null) return;
        event.preventDefault();
        doAct(act, props);
      }}
      onClick={(event) => {
        const clicked = nodeAt(event.target);
        if (clicked === null) return;
        chosen.choose(clicked);
        if (byId.get(clicked)?.kind === 'fold') chosen.open(clicked);
      }}
      onDoubleClick={(event) => {
        const clicked = nodeAt(event.target);
        if (clicked !== null && byId.get(clicked)?.kind === 'fish') chosen.open(clicked);
      }}
      onFocus={(event) => {
        const focused = nodeAt(event.target);
        if (focused !== null && focused !== chosen.id) chosen.choose(focused);
        chosen.activate();
      }}
    >
      <title id={`${id}-name`}>{title}</title>
      <desc id={`${id}-about`}>
        {`${scene.nodes.length} symbols in ${scene.layers.length} generations, oldest ${oldest}. Arrow keys move between kin.`}
      </desc>
      <g ref={stage.sceneRef}>
        <Scene drawn={drawn} chosen={chosen} pictures={props.pictures} />
      </g>
    </svg>
  );
}

function doAct(act: KeyAct, { drawn, chosen, stage, goToFocus }: PedigreeStageProps): void {
  if (act.kind === 'zoom') stage.zoomBy(act.factor);
  else if (act.kind === 'all') stage.fit();
  else if (act.kind === 'focus') goToFocus();
  else if (act.kind === 'open') chosen.open(chosen.id);
  else {
    const next = drawn.steps.go(chosen.id, act.move);
    if (next !== null) chosen.goTo(next);
  }
}
