import { useCallback, useEffect, useRef } from 'react';
import * as d3 from 'd3';
import type { PedigreeScene } from '@linewright/pedigree-layout';

const LEAST_SCALE = 0.08;
const MOST_SCALE = 3;
/** Below this, a first look shows the surroundings of the focus rather than the whole drawing too small to read. */
const READABLE_SCALE = 0.75;
/** A whole drawing that fits at this scale or more is shown whole at first. */
const WHOLE_SCALE = 0.64;
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

/** Zoom and pan by D3: wheel, drag and pinch. The transform is written to the DOM directly, so that React need not draw again. */
export function useStage(scene: PedigreeScene): Stage {
  const svgRef = useRef<SVGSVGElement>(null);
  const sceneRef = useRef<SVGGElement>(null);
  const zoomRef = useRef<d3.ZoomBehavior<SVGSVGElement, unknown> | null>(null);

  const withZoom = useCallback(
    (
      work: (
        svg: d3.Selection<SVGSVGElement, unknown, null, undefined>,
        zoom: d3.ZoomBehavior<SVGSVGElement, unknown>,
        box: DOMRect,
      ) => void,
    ) => {
      const element = svgRef.current;
      const zoom = zoomRef.current;
      if (element !== null && zoom !== null)
        work(d3.select(element), zoom, element.getBoundingClientRect());
    },
    [],
  );

  useEffect(() => {
    const element = svgRef.current;
    if (element === null) return undefined;
    const zoom = d3
      .zoom<SVGSVGElement, unknown>()
      .scaleExtent([LEAST_SCALE, MOST_SCALE])
      .on('zoom', (event: d3.D3ZoomEvent<SVGSVGElement, unknown>) => {
        sceneRef.current?.setAttribute('transform', event.transform.toString());
        element.dataset['detail'] = event.transform.k < DETAIL_SCALE ? 'low' : 'full';
      });
    zoomRef.current = zoom;
    d3.select(element).call(zoom).on('dblclick.zoom', null);
    return () => {
      d3.select(element).on('.zoom', null);
    };
  }, []);

  const fitScale = useCallback(
    (box: DOMRect) =>
      Math.min(
        1.25,
        (box.width - 24) / (scene.bounds.width + 60),
        (box.height - 24) / (scene.bounds.height + 24),
      ),
    [scene],
  );

  const show = useCallback(
    (x: number, y: number, scale: number) => {
      withZoom((svg, zoom, box) => {
        const move = d3.zoomIdentity
          .translate(box.width / 2 - x * scale, box.height / 2 - y * scale)
          .scale(scale);
        svg.call(zoom.transform, move);
      });
    },
    [withZoom],
  );

  const fit = useCallback(() => {
    const { x, y, width, height } = scene.bounds;
    withZoom((_, __, box) => show(x - 18 + width / 2, y + height / 2, fitScale(box)));
  }, [scene, withZoom, show, fitScale]);

  useEffect(() => {
    withZoom((_, __, box) => {
      const scale = fitScale(box);
      if (scale >= WHOLE_SCALE) {
        fit();
        return;
      }
      const focus = scene.nodes.find((node) => node.id === scene.focusId);
      const { x, y, width, height } = scene.bounds;
      const clampTo = (at: number, low: number, size: number, room: number): number =>
        size <= room
          ? low + size / 2
          : Math.min(low + size - room / 2, Math.max(low + room / 2, at));
      const at = focus ?? { x: x + width / 2, y: y + height / 2 };
      const k = READABLE_SCALE;
      show(
        clampTo(at.x, x - 50, width + 70, box.width / k),
        clampTo(at.y, y - 14, height + 28, box.height / k),
        k,
      );
    });
  }, [scene, fit, show, fitScale, withZoom]);

  const reveal = useCallback(
    (x: number, y: number) => {
      withZoom((svg, zoom, box) => {
        const now = d3.zoomTransform(svg.node()!);
        const [px, py] = now.apply([x, y]);
        const margin = 60;
        const over = (at: number, size: number): number =>
          at < margin ? margin - at : at > size - margin ? size - margin - at : 0;
        const dx = over(px, box.width);
        const dy = over(py, box.height);
        if (dx !== 0 || dy !== 0) svg.call(zoom.translateBy, dx / now.k, dy / now.k);
      });
    },
    [withZoom],
  );

  return {
    svgRef,
    sceneRef,
    zoomBy: useCallback(
      (factor) => withZoom((svg, zoom) => svg.call(zoom.scaleBy, factor)),
      [withZoom],
    ),
    fit,
    centreOn: useCallback(
      (x, y) =>
        withZoom((svg) => show(x, y, Math.max(READABLE_SCALE, d3.zoomTransform(svg.node()!).k))),
      [withZoom, show],
    ),
    reveal,
  };
}
