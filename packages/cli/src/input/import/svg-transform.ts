import { type Affine, compose, identity, shift, stretch } from "./affine.js";
import { parseNumbers } from "./svg-numbers.js";

const STEP = /^\s*,?\s*([a-zA-Z]+)\s*\(([^()]*)\)/;

/** The map of a `transform` attribute, or undefined when any part of it is not understood (SVG 1.1, section 7.6). */
export function parseTransform(text: string): Affine | undefined {
  let rest = text;
  let map = identity;
  while (rest.trim() !== "") {
    const match = STEP.exec(rest);
    const numbers = match?.[2] === undefined ? undefined : parseNumbers(match[2]);
    const step = numbers === undefined ? undefined : single(match?.[1] ?? "", numbers);
    if (match === null || step === undefined) return undefined;
    map = compose(map, step);
    rest = rest.slice(match[0].length);
  }
  return map;
}

function single(name: string, numbers: readonly number[]): Affine | undefined {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = numbers;
  const count = numbers.length;
  const radians = (a * Math.PI) / 180;
  switch (name) {
    case "matrix":
      return count === 6 ? [a, b, c, d, e, f] : undefined;
    case "translate":
      return count === 1 || count === 2 ? shift(a, b) : undefined;
    case "scale":
      return count === 1 ? stretch(a, a) : count === 2 ? stretch(a, b) : undefined;
    case "rotate":
      if (count === 1) return rotation(a);
      return count === 3 ? compose(compose(shift(b, c), rotation(a)), shift(-b, -c)) : undefined;
    case "skewX":
      return count === 1 ? [1, 0, Math.tan(radians), 1, 0, 0] : undefined;
    case "skewY":
      return count === 1 ? [1, Math.tan(radians), 0, 1, 0, 0] : undefined;
    default:
      return undefined;
  }
}

/** Quarter turns are exact. */
function rotation(degrees: number): Affine {
  const quarter = ((degrees % 360) + 360) % 360;
  const exact = quarter % 90 === 0;
  const radians = (degrees * Math.PI) / 180;
  const cos = exact ? Math.round(Math.cos(radians)) : Math.cos(radians);
  const sin = exact ? Math.round(Math.sin(radians)) : Math.sin(radians);
  return [cos, sin, -sin, cos, 0, 0];
}
