/** Room around the data, in pixels: for ticks, and for the names of the axes. */
export interface PlotMargin {
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  readonly left: number;
}

/** A drawing of so many pixels, and the four edges between which its data lie. */
export interface PlotArea extends PlotMargin {
  readonly width: number;
  readonly height: number;
}

export const plotArea = (width: number, height: number, margin: PlotMargin): PlotArea => ({
  width,
  height,
  left: margin.left,
  right: width - margin.right,
  top: margin.top,
  bottom: height - margin.bottom,
});

export interface Tick {
  /** Where it stands along its axis, in pixels of the drawing. */
  readonly at: number;
  readonly text: string;
  /** Class of its line in place of a plain one. */
  readonly line?: string | undefined;
}

interface Scale<Value> {
  (value: Value): number;
  ticks(count: number): Value[];
}

/** About `count` ticks at round values of a scale of D3. */
export const ticksOf = <Value>(
  scale: Scale<Value>,
  count: number,
  text: (value: Value) => string,
): Tick[] => scale.ticks(count).map((value) => ({ at: scale(value), text: text(value) }));
