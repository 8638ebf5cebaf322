/**
 * Plane geometry of reaming: the part of a circle that lies outside an ellipse with the same centre, with its derivatives. Plain
 * numbers in one unit of length; which circle and which ellipse is known in `bone-removed.ts`.
 */

export interface Crescent {
  readonly area: number;
  /** Derivatives of the area to the radius and to the ellipse's two half-axes. */
  readonly byRadius: number;
  readonly byFirst: number;
  readonly bySecond: number;
}

const nothing: Crescent = { area: 0, byRadius: 0, byFirst: 0, bySecond: 0 };

/** Circle of `radius` outside the ellipse with half-axes `first` and `second`, all above 0. */
export function crescent(radius: number, first: number, second: number): Crescent {
  const [short, long] = first <= second ? [first, second] : [second, first];
  if (radius <= short) {
    return nothing;
  }
  const { area, byRadius, byShort, byLong } = radius >= long ? whole(radius, short, long) : horns(radius, short, long);
  const [byFirst, bySecond] = first <= second ? [byShort, byLong] : [byLong, byShort];
  return { area, byRadius, byFirst, bySecond };
}

interface Piece {
  readonly area: number;
  readonly byRadius: number;
  readonly byShort: number;
  readonly byLong: number;
}

/** The ellipse lies in the circle. */
function whole(radius: number, short: number, long: number): Piece {
  return {
    area: Math.PI * (radius * radius - short * long),
    byRadius: 2 * Math.PI * radius,
    byShort: -Math.PI * long,
    byLong: -Math.PI * short,
  };
}

/**
 * Two horns on the short axis. They begin where circle and ellipse cross; in the quarter from there to the short axis the sector of
 * the circle has the angle `open`, that of the ellipse the parameter `openEllipse`. A half-axis that grows moves the ellipse's arc
 * outwards by the squared sine or cosine of its parameter.
 */
function horns(radius: number, short: number, long: number): Piece {
  const across = (long - short) * (long + short);
  const alongLong = Math.sqrt(((radius - short) * (radius + short)) / across);
  const alongShort = Math.sqrt(((long - radius) * (long + radius)) / across);
  const open = Math.atan2(long * alongLong, short * alongShort);
  const openEllipse = Math.atan2(alongLong, alongShort);
  const mixed = alongLong * alongShort;
  return {
    area: 2 * (radius * radius * open - short * long * openEllipse),
    byRadius: 4 * radius * open,
    byShort: -2 * long * (openEllipse + mixed),
    byLong: -2 * short * (openEllipse - mixed),
  };
}
