import { useEffect, useMemo, useRef } from 'react';
import * as d3 from 'd3';
import type { PedigreeScene } from '@linewright/pedigree-layout';
import {
  firstView,
  LEAST_SCALE,
  MOST_SCALE,
  READABLE_SCALE,
  shiftToReveal,
  wholeView,
  type View,
} from './stage-view.js';

/** Below this, the lines under the tags are left out. */
const DETAIL_SCALE = 0.42;

export interface Stage {
  readonly svgRef: React.RefObject<SVGSVGElement | null>;
  readonly sceneRef: React.RefObject<SVGGElement | null>;
  zoomBy(factor: number): void;
  fit(): void;
  centreOn(x: number, y: number): void;
  /** Pans just enough to bring a point into the visible part. */
  reveal(x: number, y: number): void;
}

type Zoom = d3.ZoomBehavior<SVGSVGElement, unknown>;

function zoomOf(element: SVGSVGElement, scene: () => SVGGElement | null): Zoom {
  const zoom = d3
    .zoom<SVGSVGElement, unknown>()
    .scaleExtent([LEAST_SCALE, MOST_SCALE])
    .on('zoom', (event: d3.D3ZoomEvent<SVGSVGElement, unknown>) => {
      scene()?.setAttribute('transform', event.transform.toString());
      element.dataset['detail'] = event.transform.k < DETAIL_SCALE ? 'low' : 'full';
    });
  d3.select(element).call(zoom).on('dblclick.zoom', null);
  return zoom;
}

/** Moves of an element whose zoom is set up; `null` before that. */
function movesOf(element: SVGSVGElement | null, zoom: Zoom | null) {
  if (element === null || zoom === null) return null;
  const svg = d3.select(element);
  const size = element.getBoundingClientRect();
  const now = d3.zoomTransform(element);
  return {
    size,
    now,
    zoomBy: (factor: number) => svg.call(zoom.scaleBy, factor),
    panBy: (x: number, y: number) => svg.call(zoom.translateBy, x / now.k, y / now.k),
    show: ({ x, y, scale }: View) =>
      svg.call(
        zoom.transform,
        d3.zoomIdentity
          .translate(size.width / 2 - x * scale, size.height / 2 - y * scale)
          .scale(scale),
      ),
  };
}

/** Zoom and pan by D3: wheel, drag and pinch. The transform is written to the DOM directly, so that React need not draw again. */
export function useStage(scene: PedigreeScene): Stage {
  const svgRef = useRef<SVGSVGElement>(null);
  const sceneRef = useRef<SVGGElement>(null);
  const zoomRef = useRef<Zoom | null>(null);

  useEffect(() => {
    const element = svgRef.current;
    if (element === null) return undefined;
    zoomRef.current = zoomOf(element, () => sceneRef.current);
    return () => {
      d3.select(element).on('.zoom', null);
    };
  }, []);

  useEffect(() => {
    const moves = movesOf(svgRef.current, zoomRef.current);
    const focus = scene.nodes.find((node) => node.id === scene.focusId);
    moves?.show(firstView(scene.bounds, focus, moves.size));
  }, [scene]);

  return useMemo(() => {
    const moves = () => movesOf(svgRef.current, zoomRef.current);
    return {
      svgRef,
      sceneRef,
      zoomBy: (factor) => void moves()?.zoomBy(factor),
      fit: () => {
        const now = moves();
        now?.show(wholeView(scene.bounds, now.size));
      },
      centreOn: (x, y) => {
        const now = moves();
        now?.show({ x, y, scale: Math.max(READABLE_SCALE, now.now.k) });
      },
      reveal: (x, y) => {
        const now = moves();
        if (now === null) return;
        const [px, py] = now.now.apply([x, y]);
        const shift = shiftToReveal({ x: px, y: py }, now.size);
        if (shift.x !== 0 || shift.y !== 0) now.panBy(shift.x, shift.y);
      },
    };
  }, [scene]);
}
