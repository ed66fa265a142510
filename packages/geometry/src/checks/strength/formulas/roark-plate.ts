/**
 * Flat rectangular plates by Roark's Formulas for Stress and Strain, 7th edition, table 11.4, for Poisson's ratio 0.3. The plate
 * is a long and b wide (b the shorter side), t thick. Small deflections only: y up to t/2, t up to b/4.
 */
export interface PlateBending {
  /** Largest deflection, mm. */
  readonly deflection: number;
  /** Largest bending stress, MPa. */
  readonly stress: number;
  /** Deflection at most t/2 and t at most b/4: the formulas hold. */
  readonly valid: boolean;
}

export interface RectangularPlate {
  readonly a: number;
  readonly b: number;
  readonly t: number;
  /** MPa. */
  readonly E: number;
}

const POISSON = 0.3;

/** Ratios a/b of the columns; the last is a strip without end. */
const RATIOS = [1, 1.2, 1.4, 1.6, 1.8, 2, 3, 4, 5, Number.POSITIVE_INFINITY];
const CENTRAL_RATIOS = [1, 1.2, 1.4, 1.6, 1.8, 2, Number.POSITIVE_INFINITY];

/** Table 11.4, case 1a: all edges simply supported, uniform load q over the whole plate. */
const UNIFORM = {
  beta: [0.2874, 0.3762, 0.453, 0.5172, 0.5688, 0.6102, 0.7134, 0.741, 0.7476, 0.75],
  alpha: [0.0444, 0.0616, 0.077, 0.0906, 0.1017, 0.111, 0.1335, 0.14, 0.1417, 0.1421],
};

/** Table 11.4, case 1b: all edges simply supported, load W on a small circle in the middle. */
const CENTRAL = {
  beta: [0.435, 0.65, 0.789, 0.875, 0.927, 0.958, 1],
  alpha: [0.1267, 0.1478, 0.1621, 0.1715, 0.177, 0.1805, 0.1851],
};

/** Under a uniform pressure q, MPa: y = alpha q b^4 / (E t^3), s = beta q b^2 / t^2. */
export function uniformlyLoaded(plate: RectangularPlate, q: number): PlateBending {
  const { b, t, E } = refused(plate, q);
  const ratio = plate.a / b;
  return bending(
    plate,
    (interpolated(RATIOS, UNIFORM.alpha, ratio) * q * b ** 4) / (E * t ** 3),
    (interpolated(RATIOS, UNIFORM.beta, ratio) * q * b ** 2) / t ** 2,
  );
}

/**
 * Under a force W, N, on a circle of radius r0 in the middle: y = alpha W b^2 / (E t^3),
 * s = 3 W / (2 pi t^2) ((1 + nu) ln(2 b / (pi r0')) + beta), with r0' = sqrt(1.6 r0^2 + t^2) - 0.675 t below r0 = t/2.
 */
export function centrallyLoaded(plate: RectangularPlate, W: number, r0: number): PlateBending {
  const { b, t, E } = refused(plate, W);
  if (!(r0 >= 0)) throw new RangeError(`a load cannot lie on a circle of radius ${r0} mm`);
  const ratio = plate.a / b;
  const radius = r0 < t / 2 ? Math.sqrt(1.6 * r0 ** 2 + t ** 2) - 0.675 * t : r0;
  const beta = interpolated(CENTRAL_RATIOS, CENTRAL.beta, ratio);
  return bending(
    plate,
    (interpolated(CENTRAL_RATIOS, CENTRAL.alpha, ratio) * W * b ** 2) / (E * t ** 3),
    ((3 * W) / (2 * Math.PI * t ** 2)) * ((1 + POISSON) * Math.log((2 * b) / (Math.PI * radius)) + beta),
  );
}

function bending({ b, t }: RectangularPlate, deflection: number, stress: number): PlateBending {
  return { deflection, stress, valid: deflection <= t / 2 && t <= b / 4 };
}

/** Linear between the printed columns; beyond the last finite one linear in b/a, which is 0 for the strip. */
function interpolated(ratios: readonly number[], values: readonly number[], ratio: number): number {
  const end = ratios.findIndex((column) => column >= ratio);
  const [r0, r1] = [ratios[end - 1], ratios[end] as number];
  const [v0, v1] = [values[end - 1], values[end] as number];
  if (r0 === undefined || v0 === undefined) return v1;
  const share = r1 === Number.POSITIVE_INFINITY ? 1 - r0 / ratio : (ratio - r0) / (r1 - r0);
  return v0 + share * (v1 - v0);
}

function refused(plate: RectangularPlate, load: number): RectangularPlate {
  const { a, b, t, E } = plate;
  if (!(a >= b && b > 0 && Number.isFinite(b) && t > 0 && E > 0 && load >= 0 && Number.isFinite(load))) {
    throw new RangeError(`no plate: ${a} x ${b} x ${t} mm, E ${E} MPa, load ${load}`);
  }
  return plate;
}
