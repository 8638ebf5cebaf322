/**
 * What enclosures are made of: the next double up and down, whether an operation on doubles was exact, and trigonometry of degrees
 * to within a few units in the last place. Intervals themselves are in `enclosure.ts`.
 */

/**
 * The next double above, or at most the one after it (Rump, Zimmermann, Boldo and Melquiond: Computing predecessor and successor in
 * rounding to nearest, BIT 49 (2009); from memory, and tested bit by bit).
 */
export function above(x: number): number {
  return x + (Math.abs(x) * overHalfUnit + Number.MIN_VALUE);
}

/** The next double below, or at most the one after it. */
export function below(x: number): number {
  return x - (Math.abs(x) * overHalfUnit + Number.MIN_VALUE);
}

/** Whether `sum` is x + y without rounding: the error of a sum of doubles is a double, found by taking the terms off again. */
export function sumIsExact(x: number, y: number, sum: number): boolean {
  const back = sum - x;
  return x - (sum - back) + (y - back) === 0;
}

/** Whether `product` is x × y without rounding; "no" too where it is so small that its error may vanish. */
export function productIsExact(x: number, y: number, product: number): boolean {
  if (x === 0 || y === 0) return true;
  return Math.abs(product) >= smallest && productError(x, y, product) === 0;
}

/** Whether `quotient` is x / y without rounding; "no" too where that cannot be told. */
export function quotientIsExact(x: number, y: number, quotient: number): boolean {
  if (x === 0) return true;
  const back = quotient * y;
  return back === x && productIsExact(quotient, y, back);
}

/** Whether `root` is the square root of x without rounding. */
export function rootIsExact(x: number, root: number): boolean {
  const back = root * root;
  return back === x && productIsExact(root, root, back);
}

/** Sine of degrees. The rest to the nearest multiple of a right angle is an exact difference. */
export function sineNear(degrees: number): number {
  return quarterWave(degrees, 0);
}

/** Cosine of degrees. */
export function cosineNear(degrees: number): number {
  return quarterWave(degrees, 1);
}

/** Tangent of degrees; infinite at right angles. */
export function tangentNear(degrees: number): number {
  const { quarter, rest } = reduced(degrees);
  const slope = Math.tan(rest * radians);
  return quarter % 2 === 0 ? slope : -1 / slope;
}

/** Angle in deg of the point (x, y), -180 to 180; no number at the origin. */
export function directionNear(y: number, x: number): number {
  if (Math.abs(y) > Math.abs(x)) return (y > 0 ? 90 : -90) - Math.atan(x / y) / radians;
  const slope = Math.atan(y / x) / radians;
  if (x > 0) return slope;
  return y < 0 ? slope - 180 : slope + 180;
}

/** A little more than half a unit in the last place. */
const overHalfUnit = 2 ** -53 * (1 + 2 ** -52);

/** Above it the error of a product is a double too. */
const smallest = 2 ** -900;

const radians = Math.PI / 180;

/** The exact error of a product, from halves of 26 bits (T. J. Dekker, Numerische Mathematik 18 (1971); from memory). */
function productError(x: number, y: number, product: number): number {
  const [xHigh, yHigh] = [upperHalf(x), upperHalf(y)];
  const [xLow, yLow] = [x - xHigh, y - yHigh];
  return xLow * yLow - (product - xHigh * yHigh - xLow * yHigh - xHigh * yLow);
}

function upperHalf(x: number): number {
  const scaled = x * (2 ** 27 + 1);
  return scaled - (scaled - x);
}

/** Quarter turns and what is left of an angle, -45 to 45. */
function reduced(degrees: number): { readonly quarter: number; readonly rest: number } {
  const turned = degrees % 360;
  const quarter = Math.round(turned / 90);
  return { quarter, rest: turned - quarter * 90 };
}

function quarterWave(degrees: number, ahead: number): number {
  const { quarter, rest } = reduced(degrees);
  const angle = rest * radians;
  const at = (quarter + ahead + 4) % 4;
  const size = at % 2 === 0 ? Math.sin(angle) : Math.cos(angle);
  return at < 2 ? size : -size;
}
