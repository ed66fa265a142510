import type { Basis } from "../table.js";

/** How far a sheet's thickness may be from nominal, and who says so. */
export interface ThicknessRule {
  readonly source: string;
  readonly basis: Basis;
  readonly rule: ThicknessFormula;
}

/** Plus or minus, mm, as a function of the nominal thickness t, mm. */
type ThicknessFormula =
  /** fixed + share x t */
  | { readonly kind: "linear"; readonly fixed: number; readonly share: number }
  /** A share of t: `thin` below 3 mm, `thick` from 3 mm. */
  | { readonly kind: "share"; readonly thin: number; readonly thick: number }
  /** By range of t: over, to, tolerance. */
  | { readonly kind: "ranges"; readonly rows: readonly (readonly [number, number, number])[] }
  /** Printed limits by nominal thickness (least, largest); the linear formula for thicknesses not printed. */
  | {
      readonly kind: "limits";
      readonly rows: readonly (readonly [nominal: number, least: number, largest: number])[];
      readonly otherwise: { readonly fixed: number; readonly share: number };
    };

/** The tolerance, plus or minus mm, of a sheet of nominal thickness `t` mm. Throws RangeError outside a rule's range. */
export function thicknessTolerance({ rule, source }: ThicknessRule, t: number): number {
  if (!Number.isFinite(t) || t <= 0) throw new RangeError(`sheet thickness must be above 0 mm, not ${t}`);
  switch (rule.kind) {
    case "linear":
      return rule.fixed + rule.share * t;
    case "share":
      return (t < 3 ? rule.thin : rule.thick) * t;
    case "ranges": {
      const row = rule.rows.find(([over, to]) => t > over && t <= to);
      if (row === undefined) {
        const range = `${rule.rows[0]?.[0]} to ${rule.rows.at(-1)?.[1]} mm`;
        throw new RangeError(`${source} covers ${range}, not ${t} mm: measure the sheet`);
      }
      return row[2];
    }
    case "limits": {
      const row = rule.rows.find(([nominal]) => nominal === t);
      if (row === undefined) return rule.otherwise.fixed + rule.otherwise.share * t;
      return Math.max(t - row[1], row[2] - t);
    }
  }
}

/** A rule in words, for the catalog. */
export function thicknessRuleInWords({ rule }: ThicknessRule): string {
  switch (rule.kind) {
    case "linear":
      return `${rule.fixed} + ${rule.share} t`;
    case "share":
      return `${rule.thin * 100} % below 3 mm, ${rule.thick * 100} % from 3 mm`;
    case "ranges":
      return rule.rows.map(([over, to, tolerance]) => `${over}..${to}: ${tolerance}`).join("; ");
    case "limits":
      return `${rule.rows.map(([t, least, largest]) => `${t}: ${least}..${largest}`).join("; ")}; else ${rule.otherwise.fixed} + ${rule.otherwise.share} t`;
  }
}

/** The standard allows +-23 % on 3 mm; traders promise +-10 or +-20 % for the same sheet. The standard is used. */
export const castAcrylic: ThicknessRule = {
  source: "ISO 7823-1:2003, thickness",
  basis: "standard",
  rule: { kind: "linear", fixed: 0.4, share: 0.1 },
};

export const extrudedAcrylic: ThicknessRule = {
  source: "ISO 7823-2:2003, thickness",
  basis: "standard",
  rule: { kind: "share", thin: 0.1, thick: 0.05 },
};

export const extrudedPolyethylene: ThicknessRule = {
  source: "ISO 14632, from memory",
  basis: "from memory",
  rule: { kind: "linear", fixed: 0.08, share: 0.03 },
};

export const extrudedPolypropylene: ThicknessRule = {
  source: "ISO 15013, from memory",
  basis: "from memory",
  rule: { kind: "linear", fixed: 0.08, share: 0.03 },
};

/** Pressed sheet, the wider of the two: extruded sheet has 0.1 + 0.03 t. */
export const rigidPvc: ThicknessRule = {
  source: "ISO 11833-1, pressed sheet, from memory",
  basis: "from memory",
  rule: { kind: "linear", fixed: 0.1, share: 0.05 },
};

export const polycarbonate: ThicknessRule = {
  source: "ISO 11963, from memory",
  basis: "from memory",
  rule: { kind: "share", thin: 0.1, thick: 0.05 },
};

export const otherPlastic: ThicknessRule = {
  source: "Common practice for extruded plastic sheet",
  basis: "common practice",
  rule: { kind: "share", thin: 0.1, thick: 0.05 },
};

/** Acetal plate is made over-size only; the excess is taken both ways. */
export const acetal: ThicknessRule = {
  source: "EN 15860, from memory",
  basis: "from memory",
  rule: { kind: "linear", fixed: 0.2, share: 0.05 },
};

/**
 * Limits of sanded birch plywood. A mill prints tolerances whose lower ends differ by up to 0.2. Thicknesses that are not
 * printed follow EN 315's formula from memory, the wider (lower) side both ways.
 */
export const birchPlywood: ThicknessRule = {
  source: "EN 315, limits of sanded birch plywood",
  basis: "standard",
  rule: {
    kind: "limits",
    rows: [
      [4, 3.5, 4.1],
      [6.5, 6.1, 6.9],
      [9, 8.8, 9.5],
      [12, 11.5, 12.5],
      [15, 14.3, 15.3],
      [18, 17.1, 18.1],
      [21, 20, 20.9],
    ],
    otherwise: { fixed: 0.4, share: 0.03 },
  },
};

/** Alloy group II, up to 1000 mm wide. Thick plate is often hot-rolled: EN 485-3 then applies and is wider. */
export const aluminium: ThicknessRule = {
  source: "EN 485-4:1994 table 1, group II, width up to 1000 mm",
  basis: "standard",
  rule: {
    kind: "ranges",
    rows: [
      [1.5, 1.8, 0.08],
      [1.8, 2, 0.09],
      [2, 2.5, 0.1],
      [2.5, 3, 0.11],
      [3, 3.5, 0.12],
      [3.5, 4, 0.15],
      [4, 5, 0.18],
      [5, 6, 0.2],
      [6, 8, 0.24],
      [8, 10, 0.27],
      [10, 12, 0.32],
    ],
  },
};

/** Class T1; from 50 mm it is -2/+3, taken as 3 both ways. */
export const polystyreneFoam: ThicknessRule = {
  source: "EN 13164 class T1, from memory",
  basis: "from memory",
  rule: {
    kind: "ranges",
    rows: [
      [0, 49.9, 2],
      [49.9, 120, 3],
      [120, 320, 6],
    ],
  },
};

export const softFoam: ThicknessRule = {
  source: "Common practice for split foam sheet",
  basis: "common practice",
  rule: { kind: "share", thin: 0.1, thick: 0.1 },
};
