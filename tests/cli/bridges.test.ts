import {
  circle,
  contourLength,
  deriveFrame,
  locateInRegion,
  offsetContour,
  type Plate,
  type Point,
  pathSegments,
  placeRegion,
  pointAt,
  pointDistance,
  polygon,
  rectangle,
  segmentLength,
  segments,
  tangentAt,
  touchingEdges,
} from "@keelcut/geometry";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type Bridge, plateBridges } from "../../packages/cli/src/bridges/bridge-places.js";
import { bridgedPaths } from "../../packages/cli/src/bridges/bridged-paths.js";
import { looseGuests } from "../../packages/cli/src/output/loose-guests.js";
import { prove } from "../../packages/cli/src/prove/index.js";
import { tealParameters } from "../geometry/frame/teal.js";
import { deck, nestedSheet, opening, plate, plates, plug, ring } from "./dxf-samples.js";
import { copy, type Entity, edit, move, on, polyline, reverse, vertices } from "./prove-damage.js";
import { type ProvedJob, writeJob } from "./prove-samples.js";

const wish = { count: 3, spacing: 200, width: 5 };
const free = (): boolean => false;

describe("places for bridges", () => {
  it("are as many as wanted, on straight stretches, away from corners, and apart", () => {
    const { bridges, findings } = plateBridges(deck, wish, 3, free);
    expect(findings).toEqual([]);
    expect(bridges.length).toBe(Math.ceil(contourLength(deck.region.outer) / 200));
    for (const { part, at } of bridges) {
      expect(part).toBe("outline");
      expect(pointDistance(deck.region.outer, at)).toBeLessThan(1e-9);
      // Every joint of two pieces, an arc's ends among them, keeps half a gap, a kerf and 1 mm away.
      for (const vertex of deck.region.outer) {
        expect(Math.hypot(vertex.x - at.x, vertex.y - at.y)).toBeGreaterThanOrEqual(4 + 3 + 1 - 1e-9);
      }
      for (const other of bridges) {
        const apart = Math.hypot(other.at.x - at.x, other.at.y - at.y);
        if (other.at !== at) expect(apart).toBeGreaterThan(40);
      }
    }
  });
  it("number three on a small plate, when its sides take them", () => {
    const small = plate("small", { outer: rectangle(0, 0, 60, 40), openings: [] });
    const { bridges } = plateBridges(small, wish, 3, free);
    expect(bridges).toHaveLength(3);
  });
  it("are on arcs that are wide for their gap", () => {
    const { bridges, findings } = plateBridges(ring, wish, 3, free);
    expect(findings).toEqual([]);
    expect(bridges).toHaveLength(3);
    for (const { at } of bridges) {
      expect(pointDistance(ring.region.outer, at)).toBeLessThan(1e-9);
      for (const other of bridges) {
        // A third of the circle would be 52 apart; the joints of its two arcs are kept free.
        if (other.at !== at) expect(Math.hypot(other.at.x - at.x, other.at.y - at.y)).toBeGreaterThan(35);
      }
    }
  });
  it("leave room for the cut beside the line in a sharp inside corner", () => {
    // The cut beside a notch of 28 degrees ends half a kerf times tan 76 degrees before its tip.
    const notched = plate("notched", {
      outer: polygon([
        { x: 0, y: 0 },
        { x: 200, y: 0 },
        { x: 200, y: 100 },
        { x: 115, y: 100 },
        { x: 100, y: 40 },
        { x: 85, y: 100 },
        { x: 0, y: 100 },
      ]),
      openings: [],
    });
    for (const kerf of [1, 3.175, 8]) {
      const { bridges } = plateBridges(notched, { ...wish, spacing: 40 }, kerf, free);
      expect(bridges.length).toBeGreaterThan(5);
      const [beside] = offsetContour(notched.region.outer, kerf / 2);
      const paths = bridgedPaths(
        beside ?? [],
        bridges.map(({ at }) => at),
        wish.width + kerf,
      );
      expect(paths).toHaveLength(bridges.length);
    }
  });
  it("are none on a small round plate, and a finding says so", () => {
    const { bridges, findings } = plateBridges(ring, { ...wish, width: 10 }, 3, free);
    expect(bridges).toEqual([]);
    expect(findings[0]).toMatchObject({
      id: "files.bridges",
      severity: "warning",
      place: "ring",
      measured: 0,
    });
    expect(findings[0]?.message).toContain("no bridge can be placed");
  });
  it("keep off edges that touch other plates", () => {
    const low = (point: Point): boolean => point.y < 0;
    const { bridges } = plateBridges(deck, wish, 3, low);
    expect(bridges.length).toBeGreaterThanOrEqual(3);
    for (const { at } of bridges) expect(at.y).toBeGreaterThan(0);
  });
  it("hold large windows only when asked, and never slots that another part goes through", () => {
    const window = opening(rectangle(20, 20, 120, 90));
    const slot = opening(rectangle(170, 20, 110, 90));
    const both: Plate = plate(
      "both",
      { outer: rectangle(0, 0, 300, 200), openings: [window, slot, opening(circle({ x: 20, y: 160 }, 5))] },
      {
        features: [
          { contour: 0, kind: "window", name: "window", why: "light" },
          { contour: 1, kind: "tab-slot", name: "tab slot", why: "takes a tab" },
        ],
      },
    );
    const parts = (largeOpening?: number): Set<Bridge["part"]> => {
      const asked = largeOpening === undefined ? wish : { ...wish, largeOpening };
      return new Set(plateBridges(both, asked, 3, free).bridges.map(({ part }) => part));
    };
    expect(parts()).toEqual(new Set(["outline"]));
    expect(parts(80)).toEqual(new Set(["outline", 0]));
    expect(parts(100)).toEqual(new Set(["outline"]));
  });
});

describe("in a frame", () => {
  const frame = deriveFrame(tealParameters());
  const touches = touchingEdges(frame.plates);
  const frameDeck = frame.plates.find(({ id }) => id === "deck");
  const cheek = frame.plates.find(({ id }) => id === "cheek");

  it("tabs and the edges beside them touch, free edges do not", () => {
    if (frameDeck === undefined || cheek === undefined) throw new Error("no deck or cheek");
    const ys = frameDeck.region.outer.map(({ y }) => y);
    const [top, length] = [Math.max(...ys), tealParameters().deck.length];
    // A tab's end, its side, and the shoulder beside it, which lies against the cheek.
    expect(touches(frameDeck, { x: 0, y: top })).toBe(true);
    expect(touches(frameDeck, { x: 20, y: top - 5 })).toBe(true);
    expect(touches(frameDeck, { x: 40, y: top - 10 })).toBe(true);
    expect(touches(frameDeck, { x: length / 2, y: 0 })).toBe(false);
    const high = Math.max(...cheek.region.outer.map(({ y }) => y));
    expect(touches(cheek, { x: 0, y: high })).toBe(false);
  });
  it("the deck's bridges lie on its two free sides", () => {
    if (frameDeck === undefined) throw new Error("no deck");
    const { bridges } = plateBridges(frameDeck, wish, 3.175, (point) => touches(frameDeck, point));
    expect(bridges.length).toBeGreaterThanOrEqual(3);
    for (const { at } of bridges) expect(Math.abs(at.x)).toBeCloseTo(tealParameters().deck.length / 2, 9);
  });
});

describe("interrupted contours", () => {
  it("lose the gaps and nothing else", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 12, noNaN: true }),
        fc.integer({ min: 2, max: 12 }),
        (width, count) => {
          const { bridges } = plateBridges(deck, { count, spacing: 1000, width }, 3, free);
          const paths = bridgedPaths(
            deck.region.outer,
            bridges.map(({ at }) => at),
            width + 3,
          );
          expect(paths).toHaveLength(bridges.length);
          const pieces = paths.flatMap(pathSegments);
          const left = pieces.reduce((sum, piece) => sum + segmentLength(piece), 0);
          const whole = contourLength(deck.region.outer);
          expect(left).toBeCloseTo(whole - bridges.length * (width + 3), 6);
          const arcs = (of: readonly { kind: string }[]): number =>
            of.filter(({ kind }) => kind === "arc").length;
          expect(arcs(pieces)).toBe(arcs(segments(deck.region.outer)));
        },
      ),
      { seed: 11, numRuns: 40 },
    );
  });
});

it("leaves lines that run with the plate on their left, around it and in it", () => {
  const held = [
    ...bridgedPaths(
      deck.region.outer,
      plateBridges(deck, wish, 3, free).bridges.map(({ at }) => at),
      8,
    ),
    ...bridgedPaths(ring.region.openings[0] ?? [], [{ x: 0, y: 16 }], 8),
  ];
  expect(held.length).toBeGreaterThan(3);
  for (const piece of held.flatMap(pathSegments)) {
    const [at, way] = [pointAt(piece, 0.5), tangentAt(piece, 0.5)];
    const beside = (off: number): Point => ({ x: at.x - off * way.y, y: at.y + off * way.x });
    const home = [deck, ring].find(({ region }) => locateInRegion(region, at, 1e-6) === "on");
    expect(home).toBeDefined();
    if (home === undefined) continue;
    expect(locateInRegion(home.region, beside(0.2))).toBe("inside");
    expect(locateInRegion(home.region, beside(-0.2))).toBe("outside");
  }
});

describe("plates in openings of others", () => {
  const at = (held: ReadonlyMap<string, readonly Bridge[]>): readonly string[] => {
    const of = (id: string): readonly Bridge[] => held.get(id) ?? [];
    const ids = nestedSheet.placements.map(({ part }) => part);
    const regions = nestedSheet.placements.map((placed) => {
      const found = plates.get(placed.part);
      if (found === undefined) throw new Error(placed.part);
      return placeRegion(found.region, placed);
    });
    return looseGuests(ids, regions, { gap: 8, of }, "sheet 1").map(({ message }) => message);
  };
  it("are told of where no bridge holds the core they hang on", () => {
    expect(at(new Map())).toEqual([
      expect.stringContaining("1 x ring in an opening of deck"),
      expect.stringContaining("1 x plug in an opening of ring"),
    ]);
    const heldCore = new Map([["ring", [{ part: 0, at: { x: 16, y: 0 } }]]]);
    expect(at(heldCore)).toEqual([expect.stringContaining("1 x ring in an opening of deck")]);
  });
});

it("refuses a bridge where its line is too short", () => {
  expect(() => bridgedPaths(plug.region.outer, [{ x: 6, y: 0 }], 8)).toThrow(RangeError);
});

const gap = 8;
const bridges = new Map<string, readonly Bridge[]>([
  ["deck", plateBridges(deck, { ...wish, spacing: 400 }, 3, free).bridges],
  ["plug", [{ part: "outline", at: { x: 6, y: 12 } }]],
]);

/** Plugs are too small for a gap of 8 mm beside a corner: one that is written all the same. */
const withBridges = (size: Parameters<typeof writeJob>[0], flavour: "R12" | "R2000" = "R2000"): ProvedJob =>
  writeJob(size, flavour, { bridges, gap });

describe.each([{ state: "nominal" as const }, { state: "compensated" as const, kerf: 3 }])(
  "files with bridges, $state",
  (size) => {
    it.each(["R12", "R2000"] as const)("in %s are proved", (flavour) => {
      const { files, expectations } = withBridges(size, flavour);
      const certificate = prove(files, expectations);
      expect(certificate.findings).toEqual([]);
      const decks = bridges.get("deck")?.length ?? 0;
      // Two decks and two plugs on the first sheet, two plugs on the second, and one of each alone; DXF and SVG.
      expect(certificate.bridges).toBe(2 * (3 * decks + 5));
    });
  },
);

describe.each([{ state: "nominal" as const }, { state: "compensated" as const, kerf: 3 }])(
  "files with bridges on arcs, $state",
  (size) => {
    const round = plateBridges(ring, wish, 3, free).bridges;
    const onRings = (shift: number, flavour: "R12" | "R2000" = "R2000", length = gap): ProvedJob => {
      const moved = round.map(({ part, at }) => ({ part, at: aroundOrigin(at, shift / 30) }));
      return writeJob(size, flavour, { bridges: new Map(bridges).set("ring", moved), gap: length });
    };
    const good = onRings(0);
    const faults = ({ files }: ProvedJob): string =>
      prove(files, good.expectations)
        .findings.map(({ id }) => id)
        .join(" ");

    it.each(["R12", "R2000"] as const)("in %s are proved", (flavour) => {
      const { files, expectations } = onRings(0, flavour);
      const certificate = prove(files, expectations);
      expect(certificate.findings).toEqual([]);
      const straight = withBridges(size, flavour);
      const more = certificate.bridges - prove(straight.files, straight.expectations).bridges;
      // Three rings on the sheets and one alone, three bridges each, in DXF and SVG.
      expect(more).toBe(2 * 4 * round.length);
    });
    it("are missed when they are moved along the arc or are of another length", () => {
      expect(faults(good)).toBe("");
      expect(faults(onRings(0.05))).toContain("prove.bridge");
      expect(faults(onRings(0, "R2000", 8.02))).toContain("prove.open");
    });
  },
);

function aroundOrigin({ x, y }: Point, angle: number): Point {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return { x: cos * x - sin * y, y: sin * x + cos * y };
}

describe("damage done to files with bridges", () => {
  const good = withBridges({ state: "nominal" });
  const index = good.files.findIndex(({ name }) => /sheets.*01.*\.dxf$/.test(name));
  const damaged = (damage: (entities: Entity[]) => void): string => {
    const files = good.files.map((file, at) =>
      at === index ? { ...file, text: edit(file.text, damage) } : file,
    );
    const certificate = prove(files, good.expectations);
    expect(certificate.proved).toBe(false);
    return certificate.findings.map((finding) => finding.id).join(" ");
  };
  const openLines = (entities: Entity[]): Entity[] =>
    on(entities, "outline", "LWPOLYLINE").filter(({ tags }) =>
      tags.some(([code, text]) => code === 70 && text === "0"),
    );
  const isPlug = (line: Entity): boolean => vertices(line).length === plug.region.outer.length + 2;
  /** One of a deck's lines: a plug is a single one. */
  const pick = (entities: Entity[]): Entity => {
    const line = openLines(entities).find((each) => !isPlug(each));
    if (line === undefined) throw new Error("no open line");
    return line;
  };

  it("starts from open lines", () => {
    edit(good.files[index]?.text ?? "", (entities) => {
      const decks = bridges.get("deck")?.length ?? 0;
      expect(openLines(entities)).toHaveLength(2 * decks + 2);
    });
  });
  it("finds a piece left out", () => {
    expect(damaged((entities) => entities.splice(entities.indexOf(pick(entities)), 1))).toContain(
      "prove.open",
    );
  });
  it("finds a piece moved", () => {
    expect(damaged((entities) => move(pick(entities), 0.05, 0))).toContain("prove.open");
  });
  it("finds a piece that runs the other way round, and a whole line that does", () => {
    expect(damaged((entities) => reverse(pick(entities)))).toBe("prove.direction");
    expect(
      damaged((entities) => {
        const plugged = openLines(entities).find(isPlug);
        if (plugged === undefined) throw new Error("no plug");
        reverse(plugged);
      }),
    ).toBe("prove.direction");
  });
  it("finds a piece of an opening that is cut after its plate", () => {
    const held: Bridge[] = [
      { part: 0, at: { x: 0, y: 16 } },
      { part: 0, at: { x: 0, y: -16 } },
    ];
    const job = writeJob({ state: "nominal" }, "R2000", { bridges: new Map([["ring", held]]), gap });
    expect(prove(job.files, job.expectations).findings).toEqual([]);
    const files = job.files.map((file, at) => {
      if (at !== index) return file;
      const text = edit(file.text, (entities) => {
        const [half] = on(entities, "opening", "LWPOLYLINE").filter(({ tags }) =>
          tags.some(([code, value]) => code === 70 && value === "0"),
        );
        if (half === undefined) throw new Error("no open line");
        entities.splice(entities.indexOf(half), 1);
        entities.push(half);
      });
      return { ...file, text };
    });
    expect(prove(files, job.expectations).findings.map(({ id }) => id)).toContain("prove.order");
  });
  it("finds a piece drawn twice", () => {
    expect(damaged((entities) => entities.push(copy(pick(entities))))).toMatch(/prove\.(open|double)/);
  });
  it("finds a bridge that was closed", () => {
    const ids = damaged((entities) => {
      // A plug's only bridge: the open line made a closed one.
      const line = openLines(entities).find(isPlug);
      if (line === undefined) throw new Error("no plug");
      line.tags = line.tags.map(([code, text]) => (code === 70 ? [70, "1"] : [code, text]));
    });
    expect(ids).toContain("prove.bridge");
  });
  it("finds a bridge where none belongs", () => {
    const moved = new Map(bridges).set("plug", [{ part: "outline", at: { x: 0, y: 6 } }]);
    const other = writeJob({ state: "nominal" }, "R2000", { bridges: moved, gap });
    const certificate = prove(other.files, good.expectations);
    expect(certificate.findings.map(({ id }) => id)).toContain("prove.bridge");
  });
  it("finds gaps of another length", () => {
    const other = writeJob({ state: "nominal" }, "R2000", { bridges, gap: 8.01 });
    expect(prove(other.files, good.expectations).findings.map(({ id }) => id)).toContain("prove.open");
  });
  it("takes no open line for a bridge in a job without", () => {
    const { bridgeGap: _, ...without } = good.expectations;
    expect(prove(good.files, without).findings.map(({ id }) => id)).toContain("prove.open");
  });
  it("finds an open line beside them", () => {
    const stray = polyline(
      "outline",
      [
        [400, 20],
        [420, 20],
      ],
      false,
    );
    expect(damaged((entities) => entities.push(stray))).toContain("prove.open");
  });
});
