/** Density of water taken where a frame does not say better, kg/m3: tap water at 20 degrees and usual sea water. */
export const usualWater: Readonly<Record<"fresh" | "sea", number>> = { fresh: 998.2, sea: 1025 };

/**
 * Density of water at the surface, kg/m3, by EOS-80 (Millero and Poisson 1981; Fofonoff and Millard, UNESCO Technical
 * Papers in Marine Science 44, 1983).
 *
 * @param temperature degrees Celsius, -2 to 40
 * @param salinity practical salinity, 0 to 42
 * @param scale temperature scale of the input. EOS-80 wants IPTS-68 = 1.00024 x ITS-90; thermometers of today read ITS-90.
 * Throws RangeError outside the range for which the equation was fitted.
 */
export function waterDensity(
  temperature: number,
  salinity: number,
  scale: "ITS-90" | "IPTS-68" = "ITS-90",
): number {
  const t = scale === "ITS-90" ? temperature * 1.00024 : temperature;
  if (!(temperature >= -2 && temperature <= 40)) {
    throw new RangeError(`EOS-80 holds from -2 to 40 degrees Celsius, not at ${temperature}`);
  }
  if (!(salinity >= 0 && salinity <= 42)) {
    throw new RangeError(`EOS-80 holds for practical salinity 0 to 42, not ${salinity}`);
  }
  return (
    polynomial(eos80.pure, t) +
    polynomial(eos80.b, t) * salinity +
    polynomial(eos80.c, t) * salinity ** 1.5 +
    eos80.d * salinity ** 2
  );
}

/** Coefficients of the one-atmosphere equation of state, lowest power first (UNESCO Technical Paper 44, page 17). */
const eos80 = {
  pure: [999.842594, 6.793952e-2, -9.09529e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9],
  b: [8.24493e-1, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9],
  c: [-5.72466e-3, 1.0227e-4, -1.6546e-6],
  d: 4.8314e-4,
} as const;

function polynomial(coefficients: readonly number[], t: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * t + coefficient, 0);
}
