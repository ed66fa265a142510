import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  asCircle,
  type Placement,
  type Point,
  placeRegion,
  pointDistance,
  type Region,
  regionArea,
  segments,
} from "@keelcut/geometry";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { contents, remove, scratch } from "../cli/command-run.js";
import { hasEzdxf, hasOgr, hasRsvg, outside, present, readWithEzdxf } from "../cli/dxf-outside.js";
import { barLength, page } from "../cli/pdf-pages.js";
import { darkArea, decodePng, rasterise } from "../cli/svg-picture.js";
import { examples, program } from "./built-program.js";

const hasPoppler = present("pdftoppm (poppler-utils)", "pdftoppm", ["-v"]);
const chromium = "/usr/bin/chromium";
const hasChromium = present("chromium", chromium, ["--version"]);

interface Job {
  readonly plates: readonly {
    readonly id: string;
    readonly region: Region;
    readonly bridges: readonly { readonly part: "outline" | number; readonly at: Point }[];
  }[];
  readonly nests: readonly {
    readonly sheets: readonly {
      readonly file: string;
      readonly placements: readonly (Placement & { readonly part: string })[];
    }[];
  }[];
  readonly drawings: readonly {
    readonly name: string;
    readonly plate?: string;
    readonly markStrokes: number;
    readonly noteStrokes: number;
    readonly leadIns: number;
  }[];
  readonly shop: {
    readonly files: { readonly layerNames: { readonly mark: string; readonly stock: string } };
  };
}

/** What a drawing must show, from the record's plates alone. */
interface Wanted {
  readonly name: string;
  readonly regions: readonly Region[];
  readonly bridges: number;
  /** Round contours where they lie on a sheet; none for a plate drawn alone. */
  readonly placed: readonly { readonly center: Point; readonly radius: number }[];
  /** Bridges on arcs, each of which makes two arcs of one. */
  readonly onArcs: number;
  readonly strokes: number;
}

let folder = "";
beforeAll(async () => {
  folder = await scratch({});
});
afterAll(() => remove(folder));

describe.each([
  ["teal", []],
  ["teal-110", []],
  ["teal", ["--set", `shop=${join(examples, "shops", "router-r12.yaml")}`, "--effort", "1"]],
  ["teal", ["--set", `shop=${join(examples, "shops", "waterjet.yaml")}`, "--effort", "1"]],
] as const)("the files of %s %j", (example, options) => {
  let made = "";
  let job: Job;
  let wanted: readonly Wanted[] = [];
  let paths: readonly string[] = [];

  beforeAll(async () => {
    made = join(folder, `${example}-${options.length}-${options[1]?.length ?? 0}`);
    const ran = await program(
      ["make", join(examples, example, "frame.yaml"), ...options, "--out", made],
      folder,
    );
    expect([ran.code, ran.err]).toEqual([0, ""]);
    job = JSON.parse(readFileSync(join(made, "job.json"), "utf8")) as Job;
    paths = [...(await contents(made)).keys()].map((path) => join(made, path));
    wanted = job.drawings.map((drawing) => wantedOf(job, drawing));
  }, 180_000);

  it.runIf(hasEzdxf)(
    "pass the audit of ezdxf and hold as many lines and arcs as their plates, and every circle in its place",
    () => {
      const dxfs = wanted.map(({ name }) => join(made, `${name}.dxf`));
      expect(dxfs.length).toBeGreaterThan(10);
      const { mark, stock } = job.shop.files.layerNames;
      let roundContours = 0;
      readWithEzdxf(dxfs).forEach((file, index) => {
        const { regions, bridges, onArcs, strokes, placed, name } = wanted[index] as Wanted;
        expect([name, file.complaints]).toEqual([name, []]);
        expect(file.units).toBe(4);
        const cut = file.entities.filter(({ layer }) => layer !== mark && layer !== stock);
        const contours = regions.flatMap((region) => [region.outer, ...region.openings]);
        const circles = cut.filter(({ type }) => type === "CIRCLE");
        const lines = cut.filter(({ type }) => type !== "CIRCLE");
        const missing = placed.filter(
          ({ center: { x, y }, radius }) =>
            !circles.some(
              (found) =>
                Math.hypot((found.center?.[0] ?? 0) - x, (found.center?.[1] ?? 0) - y) < 1e-6 &&
                Math.abs((found.radius ?? 0) - radius) < 1e-6,
            ),
        );
        // A round contour that bridges interrupt is no circle any more.
        expect([name, missing.length <= bridges]).toEqual([name, true]);
        roundContours += placed.length - missing.length;
        // Each bridge turns a closed line into one open piece more and splits one line; a lone bridge opens it.
        const closed = lines.filter(({ closed }) => closed === true);
        const open = lines.filter(({ closed }) => closed === false);
        expect([name, open.length]).toEqual([name, bridges]);
        if (bridges === 0) expect([name, circles.length + closed.length]).toEqual([name, contours.length]);
        const bulges = lines.reduce(
          (sum, { points }) => sum + (points ?? []).filter(([, , bulge]) => Math.abs(bulge) > 1e-9).length,
          0,
        );
        const arcs = contours.reduce(
          (sum, contour) => sum + contour.filter(({ bulge }) => bulge !== 0).length,
          0,
        );
        // A circle is two half arcs among the contours and one entity in the file.
        expect([name, bulges]).toEqual([name, arcs + onArcs - 2 * circles.length]);
        const beside = file.entities.filter(
          ({ layer, closed }) => (layer === mark || layer === stock) && closed !== true,
        );
        expect([name, beside.length]).toEqual([name, strokes]);
        expect(file.entities.every(({ color }) => color === 256)).toBe(true);
      });
      expect(roundContours).toBeGreaterThan(50);
    },
    60_000,
  );

  it.runIf(hasOgr)(
    "are read whole by ogrinfo",
    () => {
      const dxfs = paths.filter((path) => path.endsWith(".dxf"));
      const audits = hasEzdxf ? readWithEzdxf(dxfs) : [];
      dxfs.forEach((path, index) => {
        const run = spawnSync("ogrinfo", ["-ro", "-so", path, "entities"], { encoding: "utf8" });
        expect([path, run.status, run.stderr]).toEqual([path, 0, ""]);
        const count = Number(/Feature Count: (\d+)/.exec(run.stdout)?.[1]);
        if (hasEzdxf) expect(count).toBe(audits[index]?.entities.length);
        const extent = /Extent: \(([-\d.]+), ([-\d.]+)\) - \(([-\d.]+), ([-\d.]+)\)/.exec(run.stdout);
        // Curves are chords to this reader, so that it may miss a hundredth of an extent made by an arc.
        const stated = audits[index]?.extmax ?? [];
        if (hasEzdxf) {
          expect(Math.abs(Number(extent?.[3]) - (stated[0] ?? 0))).toBeLessThan(0.05);
          expect(Math.abs(Number(extent?.[4]) - (stated[1] ?? 0))).toBeLessThan(0.05);
        }
        expect(Number(extent?.[1])).toBeGreaterThanOrEqual(-1e-6);
      });
    },
    120_000,
  );

  it.runIf(hasRsvg)(
    "are drawn by rsvg-convert with the plates' area",
    () => {
      // Lines that bridges interrupt enclose nothing that could be filled.
      const whole = wanted.filter(({ bridges }) => bridges === 0);
      expect(whole.length).toBeGreaterThan(options.length === 0 ? 10 : 1);
      for (const { name, regions } of whole) {
        const svg = filled(readFileSync(join(made, `${name}.svg`), "utf8"));
        const zoom = 1;
        const area = regions.reduce((sum, region) => sum + regionArea(region), 0) * ((zoom * 96) / 25.4) ** 2;
        const picture = rasterise(svg, zoom);
        expect(Math.abs(picture.width - (widthOf(svg) * 96) / 25.4)).toBeLessThanOrEqual(1);
        expect([name, Math.abs(darkArea(picture) / area - 1) < 2e-3]).toEqual([name, true]);
      }
    },
    120_000,
  );

  it.runIf(hasChromium)(
    "are drawn by Chromium at their size",
    () => {
      const whole = wanted.find(({ bridges, name }) => bridges === 0 && name.startsWith("sheets/"));
      const drawn = whole ?? wanted.find(({ bridges }) => bridges === 0);
      if (drawn === undefined) throw new Error("no drawing without bridges");
      const svg = filled(readFileSync(join(made, `${drawn.name}.svg`), "utf8"));
      const file = join(made, "filled.svg");
      const shot = join(made, "filled.png");
      writeFileSync(file, svg);
      const size = [widthOf(svg), heightOf(svg)].map((side) => Math.ceil((side * 96) / 25.4));
      const flags = [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--hide-scrollbars",
        "--disable-quic",
        "--no-first-run",
      ];
      outside(chromium, [
        ...flags,
        `--window-size=${size.join(",")}`,
        `--screenshot=${shot}`,
        `file://${file}`,
      ]);
      const picture = decodePng(readFileSync(shot));
      expect([picture.width, picture.height]).toEqual(size);
      const area = drawn.regions.reduce((sum, region) => sum + regionArea(region), 0) * (96 / 25.4) ** 2;
      expect(Math.abs(darkArea(picture) / area - 1)).toBeLessThan(3e-3);
    },
    120_000,
  );

  it.runIf(hasPoppler)(
    "have a check bar of 100 mm on every template",
    () => {
      const pdf = join(made, "wraps.pdf");
      const pages = Number(/Pages:\s+(\d+)/.exec(outside("pdfinfo", [pdf]))?.[1]);
      expect(pages).toBeGreaterThan(0);
      for (let number = 1; number <= pages; number++) {
        expect(Math.abs(barLength(page(pdf, number, made)) - 100)).toBeLessThanOrEqual(0.2);
      }
    },
    60_000,
  );
});

function wantedOf(job: Job, drawing: Job["drawings"][number]): Wanted {
  const byId = new Map(job.plates.map((plate) => [plate.id, plate]));
  const sheet = job.nests.flatMap((nest) => nest.sheets).find(({ file }) => file === `${drawing.name}.dxf`);
  const ids =
    drawing.plate === undefined ? (sheet?.placements ?? []).map(({ part }) => part) : [drawing.plate];
  const plates = ids.flatMap((id) => byId.get(id) ?? []);
  if (plates.length === 0) throw new Error(`${drawing.name} shows nothing`);
  return {
    name: drawing.name,
    regions: plates.map(({ region }) => region),
    bridges: plates.reduce((sum, plate) => sum + plate.bridges.length, 0),
    onArcs: plates.reduce((sum, plate) => sum + plate.bridges.filter(isOnArc(plate.region)).length, 0),
    placed: (sheet?.placements ?? []).flatMap((placement) => {
      const region = byId.get(placement.part)?.region;
      const lying = region === undefined ? undefined : placeRegion(region, placement);
      return [...(lying?.openings ?? []), ...(lying === undefined ? [] : [lying.outer])].flatMap(
        (contour) => asCircle(contour) ?? [],
      );
    }),
    strokes: drawing.markStrokes + drawing.noteStrokes + drawing.leadIns,
  };
}

function isOnArc({ outer, openings }: Region): (bridge: Job["plates"][number]["bridges"][number]) => boolean {
  return ({ part, at }) => {
    const contour = part === "outline" ? outer : (openings[part] ?? []);
    return segments(contour).some(
      (piece) =>
        piece.kind === "arc" &&
        Math.abs(Math.hypot(at.x - piece.center.x, at.y - piece.center.y) - piece.radius) < 1e-6 &&
        pointDistance(contour, at) < 1e-6,
    );
  };
}

/** The cut lines alone, as one black area between them: an even number of lines around a point leaves it white. */
function filled(svg: string): string {
  const cut = [...svg.matchAll(/<g id="([^"]+)"[^>]*>([\s\S]*?)<\/g>/g)].filter(
    ([, id = ""]) => !/^(mark|stock|MARK|SHEET)(-\d+)?$/.test(id),
  );
  const data = cut.flatMap(([, , inner = ""]) => [
    ...[...inner.matchAll(/ d="([^"]*)"/g)].map((match) => match[1] ?? ""),
    ...[...inner.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/g)].map(([, x, y, r]) => {
      const [cx, radius] = [Number(x), Number(r)];
      return `M${cx - radius} ${y}A${radius} ${radius} 0 0 0 ${cx + radius} ${y}A${radius} ${radius} 0 0 0 ${cx - radius} ${y}Z`;
    }),
  ]);
  const head = /<svg [^>]*>/.exec(svg)?.[0] ?? "";
  return `${head}<path fill="black" fill-rule="evenodd" d="${data.join("")}"/></svg>`;
}

function widthOf(svg: string): number {
  return Number(/ width="([\d.]+)mm"/.exec(svg)?.[1]);
}

function heightOf(svg: string): number {
  return Number(/ height="([\d.]+)mm"/.exec(svg)?.[1]);
}
