import type { PipeParameters } from "../frame/parameters.js";
import { largestOutside, smallestBore, pipe as tablePipe } from "../standards/index.js";

/** A duct's pipe with the extremes that its standard, or the designer's measurement, allows. All mm. */
export interface DuctPipe {
  /** Key for price lists, for example `EN 1329-1 75x3`. */
  readonly designation: string;
  readonly outsideMin: number;
  readonly outsideMax: number;
  /** Largest diameter anywhere on the pipe: thickest outside, wide side of the oval. */
  readonly outsideWorst: number;
  readonly wallMin: number;
  readonly wallMax: number;
  /** Largest minus smallest outside diameter of one cut. */
  readonly ovality: number;
  /** Smallest diameter a round plate must enter: thinnest outside, thickest wall, narrow side of the oval. */
  readonly boreMin: number;
  /** Largest diameter it may find. */
  readonly boreMax: number;
  /** Mean outside diameter, for templates wrapped around the pipe. */
  readonly outsideMean: number;
  readonly source: string;
}

/**
 * Resolves a pipe from the tables and the values measured on the pipe at hand.
 *
 * A measured value, with its tolerance, replaces the table's whole range; the table's ovality stays until ovality itself is measured, for one
 * reading across a pipe tells nothing of it, and without a standard it is taken as none. Ovality acts on the bore with half its amount, because it is the
 * largest minus the smallest diameter around the same mean (ASTM D1785 and EN ISO 3126 use it so).
 *
 * @throws UnknownEntry when the standard, size or series is not in the tables
 * @throws RangeError when neither a standard nor both outside and wall are given, or the wall leaves no bore
 */
export function resolvePipe(parameters: PipeParameters): DuctPipe {
  const row =
    parameters.standard === undefined || parameters.size === undefined
      ? undefined
      : tablePipe({
          standard: parameters.standard,
          size: parameters.size,
          ...(parameters.series === undefined ? {} : { series: parameters.series }),
        });
  const { outside, wall, outsideTolerance = 0, wallTolerance = 0 } = parameters;
  const outsideMin = outside === undefined ? row?.outsideMin : outside - outsideTolerance;
  const outsideMax = outside === undefined ? row?.outsideMax : outside + outsideTolerance;
  const wallMin = wall === undefined ? row?.wallMin : wall - wallTolerance;
  const wallMax = wall === undefined ? row?.wallMax : wall + wallTolerance;
  if (
    outsideMin === undefined ||
    outsideMax === undefined ||
    wallMin === undefined ||
    wallMax === undefined
  ) {
    throw new RangeError("a pipe needs a standard and a size, or its outside diameter and wall");
  }
  const ovality = parameters.ovality ?? row?.ovality ?? 0;
  const boreMin = smallestBore({ outsideMin, wallMax, ovality });
  if (!(boreMin > 0)) throw new RangeError(`a wall of ${wallMax} mm leaves no bore in ${outsideMin} mm`);
  return {
    designation: row?.designation ?? `${outside}x${wall}`,
    outsideMin,
    outsideMax,
    outsideWorst: largestOutside({ outsideMax, ovality }),
    wallMin,
    wallMax,
    ovality,
    boreMin,
    boreMax: outsideMax - 2 * wallMin + ovality / 2,
    outsideMean: (outsideMin + outsideMax) / 2,
    source: row?.source ?? "measured by the designer",
  };
}
