import { useCallback, useEffect, useRef, useState } from 'react';
import type { SceneNode } from '@linewright/pedigree-layout';
import type { DrawnPedigree, Folds, PedigreeMarks } from './use-drawn-pedigree.js';
import type { PedigreeDrawingProps } from './types.js';
import type { Stage } from './use-stage.js';

export interface ChosenNode {
  readonly id: string;
  readonly node: SceneNode | undefined;
  /** Whether the drawing was used: before that, the kin of the chosen fish are not marked. */
  readonly active: boolean;
  activate(): void;
  choose(id: string): void;
  /** Chooses it and gives it the keyboard's focus once it is drawn. */
  goTo(id: string): void;
  /** Opens a fish, or draws the sibs of a fold one by one. */
  open(id: string): void;
}

/** Whether a node is a fish with a page of its own: not one that is planned, nor one that is drawn for its young alone. */
export const opensPage = (
  node: SceneNode | undefined,
  { pageless }: Pick<PedigreeMarks, 'pageless'>,
): boolean => node?.kind === 'fish' && !node.planned && !pageless.has(node.id);

/** The element exists with its new tab stop only after React has drawn; then the browser's focus may follow. */
function useFocusAfterDrawing(drawn: DrawnPedigree, stage: Stage): (id: string) => void {
  const { svgRef, reveal } = stage;
  const wanted = useRef<string | null>(null);
  useEffect(() => {
    const id = wanted.current;
    if (id === null) return;
    wanted.current = null;
    const node = drawn.byId.get(id);
    if (node === undefined) return;
    svgRef.current
      ?.querySelector<SVGGElement>(`[data-node="${CSS.escape(id)}"]`)
      ?.focus({ preventScroll: true });
    reveal(node.x, node.y);
  });
  return useCallback((id) => {
    wanted.current = id;
  }, []);
}

/** The fish that the keyboard stands on and the line below the drawing tells about. */
export function useChosenNode(
  { focusId, onOpenFish, onSelectFish }: PedigreeDrawingProps,
  drawn: DrawnPedigree,
  folds: Folds,
  stage: Stage,
): ChosenNode {
  const { byId } = drawn;
  const [chosenId, setChosenId] = useState(focusId);
  const [active, setActive] = useState(false);
  useEffect(() => setChosenId(focusId), [focusId]);
  const focusAfterDrawing = useFocusAfterDrawing(drawn, stage);
  const id = byId.has(chosenId) ? chosenId : focusId;

  const choose = (next: string) => {
    setChosenId(next);
    setActive(true);
    const node = byId.get(next);
    if (node?.kind === 'fish' && !node.planned) onSelectFish?.(next);
  };

  const unfold = (foldId: string, firstId: string | undefined) => {
    folds.expand(foldId);
    if (firstId === undefined) return;
    setChosenId(firstId);
    focusAfterDrawing(firstId);
  };

  return {
    id,
    node: byId.get(id),
    active,
    activate: () => setActive(true),
    choose,
    goTo: (next) => {
      focusAfterDrawing(next);
      choose(next);
    },
    open: (asked) => {
      const node = byId.get(asked);
      if (node?.kind === 'fold') unfold(asked, node.memberIds[0]);
      else if (opensPage(node, drawn.marks)) onOpenFish(asked);
    },
  };
}
