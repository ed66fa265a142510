import { asCircle, isDrilled, type Plate, TOLERANCE } from "@keelcut/geometry";
import type { ShopProfile } from "../input/shop-profile.js";

/**
 * Diameters (mm) of a plate's round openings that a router shop drills: those its profile has a drill for, and those its
 * cutter is too wide for; one entry an opening. None of another method. Finished sizes, also where the file itself is
 * compensated.
 */
export function drilledOpenings({ region }: Plate, { cutting, machine }: ShopProfile): readonly number[] {
  if (cutting.method !== "router") return [];
  const drills = machine.drills.map(({ diameter }) => diameter);
  return region.openings.flatMap((opening) => {
    const circle = asCircle(opening);
    if (circle === undefined) return [];
    const diameter = 2 * circle.radius;
    const tooNarrow = cutting.compensation === "shop" && diameter <= cutting.kerf + TOLERANCE;
    return isDrilled(diameter, drills) || tooNarrow ? [diameter] : [];
  });
}
