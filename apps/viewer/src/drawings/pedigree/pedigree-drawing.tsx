import { clsx } from 'clsx';
import {
  useCallback,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
  type SetStateAction,
  type Dispatch,
} from 'react';
import {
  navigate,
  type Move,
  type SceneNode,
  type PedigreeScene,
  type PathHighlight,
} from '@linewright/pedigree-layout';
import { roman } from '../figures.js';
import { nameNodes, type NodeNames } from './node-names.js';
import { PathWords } from './path-words.js';
import { PedigreeKey } from './pedigree-key.js';
import { KinLines, PathBadges, PathLines, PedigreeLines } from './pedigree-lines.js';
import { PedigreeNode } from './pedigree-node.js';
import { PedigreeTable } from './pedigree-table.js';
import { SelectedFish } from './selected-fish.js';
import type { PedigreeDrawingProps } from './types.js';
import { useStage, type Stage } from './use-stage.js';
import { highlightsOf, sceneOf } from './view.js';
import styles from './pedigree.module.css';

const MOVES: Readonly<Record<'down' | 'right', Readonly<Record<string, Move>>>> = {
  down: { ArrowUp: 'parent', ArrowDown: 'young', ArrowLeft: 'before', ArrowRight: 'after' },
  right: { ArrowLeft: 'parent', ArrowRight: 'young', ArrowUp: 'before', ArrowDown: 'after' },
};
const LETTERS: Readonly<Record<string, Move>> = {
  s: 'sire',
  d: 'dam',
  m: 'mate',
  Home: 'first',
  End: 'last',
};

const NO_FOLDS: ReadonlySet<string> = new Set();
const NO_PATHS: readonly (readonly string[])[] = [];

/** Ancestors and descendants of a fish, each drawn once, with the paths that make F and a planned brood on request. */
export function PedigreeDrawing(props: PedigreeDrawingProps) {
  const { fish, focusId, scope, maxAncestorGenerations, maxDescendantGenerations } = props;
  const { onOpenFish, onSelectFish } = props;
  const orientation = props.orientation ?? 'down';
  const foldSpawnsAbove = props.foldSpawnsAbove ?? 5;
  const planned = props.hypothetical ?? null;
  const title = props.title ?? 'Pedigree';
  const titleId = useId();
  const [expandedFolds, setExpandedFolds] = useState(NO_FOLDS);
  const paths = useMemo(
    () => props.highlightedPaths ?? (props.highlightedPath ? [props.highlightedPath] : NO_PATHS),
    [props.highlightedPaths, props.highlightedPath],
  );
  const keepIds = useMemo(() => [...new Set(paths.flat())].sort(), [paths]);
  const keepKey = keepIds.join('\n');
  const scene = useMemo(
    () =>
      sceneOf({
        fish,
        focusId,
        planned,
        orientation,
        foldSpawnsAbove,
        expandedFolds,
        keepIds: keepKey === '' ? [] : keepKey.split('\n'),
        ...(scope === undefined ? {} : { scope }),
        ...(maxAncestorGenerations === undefined ? {} : { maxAncestorGenerations }),
        ...(maxDescendantGenerations === undefined ? {} : { maxDescendantGenerations }),
      }),
    // prettier-ignore
    [fish, focusId, planned, orientation, foldSpawnsAbove, expandedFolds, keepKey, scope, maxAncestorGenerations, maxDescendantGenerations],
  );
  const steps = useMemo(() => navigate(scene), [scene]);
  const names = useMemo(() => nameNodes(scene, steps), [scene, steps]);
  const highlights = useMemo(() => highlightsOf(scene, paths, planned), [scene, paths, planned]);
  const nobodyKnows = useMemo(
    () => new Set(fish.filter((one) => one.unknownParent === true).map((one) => one.id)),
    [fish],
  );
  const dead = useMemo(
    () => new Set(fish.filter((one) => one.dead === true).map((one) => one.id)),
    [fish],
  );
  const byId = useMemo(() => new Map(scene.nodes.map((node) => [node.id, node] as const)), [scene]);
  const [chosenId, setChosenId] = useState(focusId);
  const selectedId = byId.has(chosenId) ? chosenId : focusId;
  const [active, setActive] = useState(false);
  const stage = useStage(scene);
  const { svgRef, reveal } = stage;
  const focusAfterDraw = useRef<string | null>(null);

  useEffect(() => setChosenId(focusId), [focusId]);

  const select = useCallback(
    (id: string) => {
      setChosenId(id);
      setActive(true);
      const node = byId.get(id);
      if (node?.kind === 'fish' && !node.hypothetical) onSelectFish?.(id);
    },
    [byId, onSelectFish],
  );

  // The element exists with its new tab stop only after React has drawn; then the browser's focus may follow.
  useEffect(() => {
    const id = focusAfterDraw.current;
    if (id === null) return;
    focusAfterDraw.current = null;
    const node = byId.get(id);
    if (node === undefined) return;
    svgRef.current
      ?.querySelector<SVGGElement>(`[data-node="${CSS.escape(id)}"]`)
      ?.focus({ preventScroll: true });
    reveal(node.x, node.y);
  });

  const open = useCallback(
    (id: string) => {
      const node = byId.get(id);
      if (node === undefined) return;
      if (node.kind === 'fish') {
        if (!node.hypothetical) onOpenFish(id);
        return;
      }
      setExpandedFolds((folds) => new Set([...folds, id]));
      const first = node.memberIds[0];
      if (first !== undefined) {
        setChosenId(first);
        focusAfterDraw.current = first;
      }
    },
    [byId, onOpenFish],
  );

  const nodeAt = (target: EventTarget): string | null =>
    target instanceof Element
      ? (target.closest('[data-node]')?.getAttribute('data-node') ?? null)
      : null;

  const goToFocus = (): void => {
    const node = byId.get(focusId);
    if (node !== undefined) stage.centreOn(node.x, node.y);
  };

  const onKeyDown = (event: React.KeyboardEvent): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const commands: Readonly<Record<string, () => void>> = {
      '+': () => stage.zoomBy(1.25),
      '=': () => stage.zoomBy(1.25),
      '-': () => stage.zoomBy(0.8),
      '0': () => stage.fit(),
      f: goToFocus,
      Enter: () => open(selectedId),
      ' ': () => open(selectedId),
    };
    const command = commands[event.key];
    const move = MOVES[orientation][event.key] ?? LETTERS[event.key];
    if (command !== undefined) command();
    else if (move !== undefined) {
      const next = steps.go(selectedId, move);
      if (next !== null) {
        focusAfterDraw.current = next;
        select(next);
      }
    } else return;
    event.preventDefault();
  };

  const pathFish = new Set(paths.flat());
  const ancestors = new Set(highlights.map((highlight) => highlight.ancestorId));
  const selected = byId.get(selectedId);
  const down = orientation === 'down';
  return (
    <figure className="lw-drawing" aria-labelledby={titleId}>
      <div className={styles['stage-head']}>
        <figcaption id={titleId}>{title}</figcaption>
        <StageTools
          stage={stage}
          goToFocus={goToFocus}
          expandedFolds={expandedFolds}
          setExpandedFolds={setExpandedFolds}
        />
      </div>
      <div className={styles['stage']} style={{ height: props.height ?? 'min(76vh, 720px)' }}>
        <svg
          ref={stage.svgRef}
          className={clsx(styles['stage-svg'], paths.length > 0 && styles['has-path'])}
          role="group"
          aria-labelledby={`${titleId}-name`}
          aria-describedby={`${titleId}-about`}
          onKeyDown={onKeyDown}
          onClick={(event) => {
            const id = nodeAt(event.target);
            if (id === null) return;
            select(id);
            if (byId.get(id)?.kind === 'fold') open(id);
          }}
          onDoubleClick={(event) => {
            const id = nodeAt(event.target);
            if (id !== null && byId.get(id)?.kind === 'fish') open(id);
          }}
          onFocus={(event) => {
            const id = nodeAt(event.target);
            if (id !== null && id !== selectedId) select(id);
            setActive(true);
          }}
        >
          <title id={`${titleId}-name`}>{title}</title>
          <desc id={`${titleId}-about`}>
            {`${scene.nodes.length} symbols in ${scene.layers.length} generations, oldest ${down ? 'at the top' : 'at the left'}. Arrow keys move between kin.`}
          </desc>
          <Scene
            stage={stage}
            scene={scene}
            active={active}
            selected={selected}
            selectedId={selectedId}
            highlights={highlights}
            down={down}
            names={names}
            pathFish={pathFish}
            ancestors={ancestors}
            dead={dead}
            nobodyKnows={nobodyKnows}
          />
        </svg>
      </div>
      {selected !== undefined && (
        <SelectedFish node={selected} kin={steps.kinOf(selectedId)} names={names} onOpen={open} />
      )}
      <PathWords highlights={highlights} names={names} />
      {scene.leftOut > 0 && (
        <p className="lw-quiet-text">
          {scene.leftOut} fish that are neither ancestors nor descendants are not drawn.
        </p>
      )}
      <PedigreeKey />
      <PedigreeTable
        scene={scene}
        steps={steps}
        names={names}
        title={title}
        onOpenFish={onOpenFish}
      />
    </figure>
  );
}

function Scene({
  stage,
  scene,
  active,
  selected,
  selectedId,
  highlights,
  down,
  names,
  pathFish,
  ancestors,
  dead,
  nobodyKnows,
}: {
  stage: Stage;
  scene: PedigreeScene;
  active: boolean;
  selected: SceneNode | undefined;
  selectedId: string;
  highlights: readonly PathHighlight[];
  down: boolean;
  names: NodeNames;
  pathFish: Set<string>;
  ancestors: Set<string | null>;
  dead: Set<string>;
  nobodyKnows: Set<string>;
}) {
  return (
    <g ref={stage.sceneRef}>
      {scene.layers.map((layer) => (
        <Generation key={layer.index} scene={scene} index={layer.index} />
      ))}
      <PedigreeLines scene={scene} />
      {active && selected !== undefined && <KinLines scene={scene} nodeId={selectedId} />}
      <PathLines scene={scene} highlights={highlights} />
      {scene.nodes.map((node) => (
        <PedigreeNode
          key={node.id}
          node={node}
          down={down}
          name={names.of(node)}
          tabbable={node.id === selectedId}
          onPath={pathFish.has(node.id)}
          commonAncestor={ancestors.has(node.id)}
          dead={dead.has(node.id)}
          unknownParent={nobodyKnows.has(node.id)}
        />
      ))}
      <PathBadges scene={scene} highlights={highlights} />
    </g>
  );
}

function StageTools({
  stage,
  goToFocus,
  expandedFolds,
  setExpandedFolds,
}: {
  stage: Stage;
  goToFocus: () => void;
  expandedFolds: ReadonlySet<string>;
  setExpandedFolds: Dispatch<SetStateAction<ReadonlySet<string>>>;
}) {
  return (
    <div className={styles['stage-tools']} role="group" aria-label="View">
      <button type="button" onClick={() => stage.zoomBy(1.25)} aria-label="Zoom in">
        +
      </button>
      <button type="button" onClick={() => stage.zoomBy(0.8)} aria-label="Zoom out">
        −
      </button>
      <button type="button" onClick={() => stage.fit()}>
        All
      </button>
      <button type="button" onClick={goToFocus}>
        Focus
      </button>
      {expandedFolds.size > 0 && (
        <button type="button" onClick={() => setExpandedFolds(NO_FOLDS)}>
          Fold
        </button>
      )}
    </div>
  );
}

function Generation({
  scene,
  index,
}: {
  readonly scene: ReturnType<typeof sceneOf>;
  readonly index: number;
}) {
  const layer = scene.layers[index]!;
  const { x, y, width, height } = scene.bounds;
  const down = scene.orientation === 'down';
  const band = down
    ? { x: x - 44, y: layer.from - 6, width: width + 60, height: layer.to - layer.from + 10 }
    : { x: layer.from - 6, y: y - 30, width: layer.to - layer.from + 12, height: height + 44 };
  const place = down ? { x: x - 36, y: layer.from + 19 } : { x: layer.from + 14, y: y - 14 };
  return (
    <g aria-hidden="true">
      <rect className={styles['band']} {...band} rx={8} />
      <text className={styles['generation']} {...place} textAnchor={down ? 'start' : 'middle'}>
        {roman(index + 1)}
      </text>
    </g>
  );
}
