/** Where young of a fish of some value are expected from the line's mean, with a partner that stands at it; as it is written. */
export const youngOf =
  (lineMean: number, factor: number) =>
  (value: number): number =>
    (factor * (value - lineMean)) / 2;
