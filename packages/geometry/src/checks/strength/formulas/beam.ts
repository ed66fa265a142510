/** Deflection, mm, and bending stress, MPa, where they are largest. */
export interface BeamBending {
  readonly deflection: number;
  readonly stress: number;
}

/** A straight beam: second moment of area, mm4, section modulus, mm3, modulus of elasticity, MPa. */
export interface Section {
  readonly I: number;
  readonly Z: number;
  readonly E: number;
}

/** A rectangle, `deep` in the direction of the load. */
export function rectangular(wide: number, deep: number, E: number): Section {
  return { I: (wide * deep ** 3) / 12, Z: (wide * deep ** 2) / 6, E };
}

export function round(diameter: number, E: number): Section {
  return { I: (Math.PI * diameter ** 4) / 64, Z: (Math.PI * diameter ** 3) / 32, E };
}

/** Force F, N, at the free end of a cantilever of length L, mm (Shigley table A-9, case 1). */
export function cantilever({ I, Z, E }: Section, F: number, L: number): BeamBending {
  return { deflection: (F * L ** 3) / (3 * E * I), stress: (F * L) / Z };
}

/** Force in the middle of a beam on two supports (Shigley table A-9, case 5). */
export function simpleCentre({ I, Z, E }: Section, F: number, L: number): BeamBending {
  return { deflection: (F * L ** 3) / (48 * E * I), stress: (F * L) / (4 * Z) };
}

/**
 * Several forces on a beam on two supports, superposed (Shigley table A-9, case 6). Deflection is that of the middle, which is
 * within 3 % of the largest.
 */
export function simpleSeveral(
  { I, Z, E }: Section,
  forces: readonly { readonly F: number; readonly at: number }[],
  L: number,
): BeamBending & { readonly reactions: readonly [number, number] } {
  const left = forces.reduce((sum, { F, at }) => sum + (F * (L - at)) / L, 0);
  const total = forces.reduce((sum, { F }) => sum + F, 0);
  const moments = forces.map(({ at }) =>
    forces.reduce((sum, other) => (other.at < at ? sum - other.F * (at - other.at) : sum), left * at),
  );
  const middle = forces.reduce((sum, { F, at }) => {
    const short = Math.min(at, L - at);
    return sum + (F * short * (3 * L ** 2 - 4 * short ** 2)) / (48 * E * I);
  }, 0);
  return {
    deflection: middle,
    stress: Math.max(0, ...moments) / Z,
    reactions: [left, total - left],
  };
}
