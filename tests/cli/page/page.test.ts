import { createHash } from "node:crypto";
import type { Finding, Frame, Plate } from "@keelcut/geometry";
import { describe, expect, it } from "vitest";
import { assemblySteps } from "../../../packages/cli/src/output/page/assembly-steps.js";
import { chooseCautions, renderPage } from "../../../packages/cli/src/output/page/index.js";
import { below, elementById, pictures, unbalancedTags, visibleText } from "./page-reader.js";
import { smallEstimate } from "./small-estimate.js";
import { smallFrame, smallJob } from "./small-job.js";

const job = smallJob({ estimate: smallEstimate(2), batches: [1, 10, 100].map(smallEstimate) });
const page = renderPage(job);
const text = visibleText(page);

describe("the page as a document", () => {
  it("is well-formed, and every picture is XML with a name and a description", () => {
    expect(unbalancedTags(page)).toEqual([]);
    const all = pictures(page);
    expect(all.length).toBe(2 + 5 + 4 + 2);
    for (const svg of all) {
      expect(below(svg, "title").length).toBeGreaterThan(0);
      expect(below(svg, "desc").length).toBe(1);
      expect(svg.attributes["role"]).toBe("img");
    }
  });

  it("has no doubled id and no link to an id that is not there", () => {
    const ids = [...page.matchAll(/ id="([^"]*)"/g)].map((match) => match[1]);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, target] of page.matchAll(/(?:href="#|aria-labelledby=")([^" ]+)/g))
      expect(ids).toContain(target);
  });

  it("asks nothing of the network and holds no script", () => {
    expect(page.replaceAll("http://www.w3.org/2000/svg", "")).not.toMatch(
      /https?:|url\(|@import|<script|<link|<img|<iframe| on[a-z]+=| style=/,
    );
  });

  it("allows its own style sheet and nothing else", () => {
    const style = /<style>(.*?)<\/style>/s.exec(page)?.[1] ?? "";
    const hash = createHash("sha256").update(style).digest("base64");
    expect(style.length).toBeGreaterThan(1000);
    expect(page).toContain(
      `content="default-src 'none'; style-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'"`,
    );
  });

  it("gives the same bytes for the same model", () => {
    expect(renderPage(structuredClone(job))).toBe(page);
  });

  it("has one main heading, landmarks, and a caption and headings on every table", () => {
    for (const tag of ["h1", "main", "nav", "footer"])
      expect(page.match(new RegExp(`<${tag}[ >]`, "g"))).toHaveLength(1);
    const tables = page.match(/<table.*?<\/table>/gs) ?? [];
    expect(tables.length).toBeGreaterThan(8);
    for (const table of tables) {
      expect(table).toMatch(/<caption>[^<]+<\/caption>/);
      expect(table).toMatch(/<th role="columnheader" scope="col"/);
    }
  });
});

describe("sheets and plates", () => {
  it("shows every plate once and every sheet once, with its placements", () => {
    expect(page.match(/<article class="plate-card"/g)).toHaveLength(job.plates.length);
    expect(page.match(/<article class="sheet-card"/g)).toHaveLength(2);
    job.plates.forEach((plate, i) => {
      expect(visibleText(elementById(page, `plate-${i + 1}`))).toContain(plate.name);
    });
    const sheets = pictures(page).filter((svg) => /^picture sheet/.test(svg.attributes["class"] ?? ""));
    const drawn = sheets.map((svg) => below(svg, "use").map((use) => use.attributes["transform"]));
    // SVG's y points down, so that heights and angles change their sign.
    const laid = job.nests.flatMap(({ result }) =>
      result.sheets.map(({ placements }) =>
        placements.map(({ x, y, rotation, mirrored }) => {
          const turn = rotation === 0 ? 0 : -rotation;
          return `translate(${x} ${-y}) rotate(${turn})${mirrored ? " scale(-1 1)" : ""}`;
        }),
      ),
    );
    expect(laid.map((sheet) => sheet.length)).toEqual([3, 5]);
    expect(drawn).toEqual(laid);
    expect(visibleText(elementById(page, "sheet-1"))).toContain("cut 2 times");
  });

  it("prints the utilisation that the closed forms give", () => {
    const deck =
      300 * 180 - (4 - Math.PI) * 8 ** 2 - Math.PI * 33 ** 2 - 2 * (60 * 4 + Math.PI * 2 ** 2) - 120 * 80;
    const twoCheeks = 2 * cheekArea();
    const share = ((deck + twoCheeks) / (1000 * 500)) * 100;
    expect(visibleText(elementById(page, "sheet-1"))).toContain(`${Number(share.toFixed(1))} %`);
  });

  it("keeps arcs true: a circle is two arcs of its radius", () => {
    const carrier = elementById(page, "plate-3");
    expect(carrier).toMatch(/M33\.7 0A33\.7 33\.7 0 0 0 -33\.7 0A33\.7 33\.7 0 0 0 33\.7 0Z/);
  });

  it("names the plates that found no place and says not to cut", () => {
    expect(text).toContain(
      "Do not cut. It does not fit: 0 errors, 1 warning, 1 note. 3 plates found no place on a sheet.",
    );
    expect(text).toContain("3 copies are left and no PVC-U 5 mm stock is");
  });

  it("says that it fits only when nothing is wrong", () => {
    const nests = job.nests.map((nest) => ({ ...nest, result: { ...nest.result, unplaced: [] } }));
    const fits = visibleText(renderPage({ ...job, nests, findings: [] }));
    expect(fits).toContain("It fits. 0 errors, 0 warnings, 0 notes.");
    expect(fits).toContain("The checks found nothing to report.");
    const [warning] = job.findings;
    const errors = visibleText(
      renderPage({ ...job, nests, findings: [{ ...(warning as Finding), severity: "error" }] }),
    );
    expect(errors).toContain("Do not cut. It does not fit: 1 error, 0 warnings, 0 notes.");
  });

  it("reads the same finding at several places once, and keeps notes apart", () => {
    const [warning, note] = job.findings as [Finding, Finding];
    const places = ["port.carrier", "lift.carrier", "aft.carrier"];
    const findings = [note, ...places.map((place) => ({ ...warning, place }))];
    const many = renderPage({ ...job, findings });
    const grave = elementById(many, "findings");
    expect(grave.match(/<tr role="row">/g)).toHaveLength(1 + 1);
    expect(visibleText(grave)).toContain("port.carrier , lift.carrier , aft.carrier");
    expect(visibleText(grave)).not.toContain(note.message);
    expect(visibleText(elementById(many, "notes"))).toContain(note.message);
    expect(visibleText(many)).toContain("0 errors, 3 warnings, 1 note");
  });

  it("refuses a placement of a plate that is not in the job", () => {
    expect(() => renderPage({ ...job, plates: job.plates.slice(1) })).toThrow(/the plate deck/);
  });
});

describe("figures", () => {
  it("states the compensation loudly, either way", () => {
    expect(text).toContain(
      "Files are at nominal size, NOT compensated. The shop moves the cut by half the kerf (1.5875 mm of 3.175 mm)",
    );
    expect(visibleText(renderPage({ ...job, compensation: "file" }))).toContain(
      "Files are ALREADY compensated by 1.5875 mm",
    );
  });

  it("prints totals, lines and prices as the estimate has them", () => {
    const { totals, perKit, lines } = smallEstimate(2);
    const cost = visibleText(elementById(page, "cost"));
    expect(cost).toContain(`${(totals.total / 100).toFixed(2)} EUR in all`);
    expect(cost).toContain(`${(perKit.total / 100).toFixed(2)} EUR a kit`);
    for (const line of lines)
      if (line.amount !== undefined) expect(cost).toContain((line.amount / 100).toFixed(2));
    expect(cost).toContain("1 line without a price is missing from the totals");
    expect(cost).toContain("not counted");
    expect(cost).toContain("95.89");
    expect(visibleText(page)).toContain("Cutting time 47 min 1 layout without a feed");
  });

  it("measures the vehicle from its seats: rods set the width, cheeks and upright pipe the height", () => {
    const vehicle = visibleText(elementById(page, "vehicle"));
    for (const size of ["300 mm", "212 mm", "180 mm"]) expect(vehicle).toContain(size);
  });

  it("says how bars are sawn, where there is a plan for it", () => {
    const plan = {
      bars: [{ stock: 0, times: 3, cuts: [{ length: 212, count: 4 }], rest: 143.9 }],
      use: [{ length: 1000, used: 3, atHand: 0, bought: 3 }],
      bound: 3,
      boundIs: "bars",
      proof: "bound",
    } as const;
    const lengths = [{ item: "rod DIN 976 M6", kind: "rod", pieces: [], plan }] as const;
    const sawn = renderPage({ ...job, estimate: { ...smallEstimate(2), lengths } });
    expect(visibleText(elementById(sawn, "hardware"))).toMatch(/rod DIN 976 M6 3 1000 4 × 212 143\.9/);
    expect(visibleText(elementById(page, "hardware"))).not.toContain("Sawing");
  });

  it("uses every plate and every piece of hardware once, over all steps", () => {
    const frame = smallFrame();
    const counts = new Map<string, number>();
    for (const { parts } of assemblySteps(frame)) {
      for (const { what, count } of parts) counts.set(what, (counts.get(what) ?? 0) + count);
    }
    const wanted = [
      ...frame.plates.map((plate) => [plate.name, plate.count] as const),
      ...frame.hardware.map(({ item, count }) => [item, count] as const),
      ...frame.lengths.map(({ item, length, count }) => [`${item}, ${length} mm`, count] as const),
    ];
    expect([...counts].sort()).toEqual(wanted.map(([what, count]) => [what, count]).sort());
  });
});

describe("assembly", () => {
  it("follows the design: ducts before cheeks, cheeks before skids, floats and equipment, the unknown last", () => {
    const base = smallFrame();
    const use = (place: string, why = "for it"): Frame["hardware"][number] => ({
      item: `part of ${place}`,
      kind: "other",
      count: 1,
      uses: [{ place, count: 1, why }],
    });
    const places = [
      "quay.crane",
      "straps.cell",
      "pods.box",
      "floats.top",
      "skids",
      "rods.1",
      "lift.ties",
      "port.carrier",
    ];
    const [first] = base.plates as [Plate, ...Plate[]];
    const plates = ["skid", "float-top-1", "handle", "bulkhead", "cheek", "carrier-front", "deck"].map(
      (template) => ({
        ...first,
        template,
        name: template,
      }),
    );
    const steps = assemblySteps(
      smallFrame({ plates, hardware: places.map((place) => use(place)), lengths: [] }),
    );
    expect(steps.map((step) => step.parts.map((part) => part.what.replace("part of ", "")))).toEqual([
      ["carrier-front", "port.carrier"],
      ["deck", "lift.ties"],
      ["bulkhead"],
      ["handle", "cheek"],
      ["rods.1"],
      ["skid", "skids"],
      ["float-top-1", "floats.top"],
      ["straps.cell", "pods.box"],
      ["quay.crane"],
    ]);
    expect(steps.at(-1)?.title).toBe("Fit what is left");
  });

  it("puts half of what holds the cheeks from both sides on before them, half after", () => {
    const uses = [
      { place: "rods.1", count: 8, why: "one on each side of each cheek" },
      { place: "rods.1", count: 6, why: "one on each side of each pipe" },
    ];
    const steps = assemblySteps(
      smallFrame({ plates: [], lengths: [], hardware: [{ item: "nut", kind: "nut", count: 14, uses }] }),
    );
    expect(steps.map(({ title, parts }) => [title, parts.map(({ count }) => count)])).toEqual([
      ["Put the rods through the lying ducts", [6]],
      ["Set cheeks and deck", [4]],
      ["Close the frame", [4]],
    ]);
  });
});

describe("cautions", () => {
  const titles = (method: "router" | "laser" | "waterjet", material: string): readonly string[] => {
    const frame = smallFrame();
    const plates = frame.plates.map((plate) => ({ ...plate, sheet: { material, thickness: 5 } }));
    const parameters = { ...frame.parameters, cutting: { ...frame.parameters.cutting, method } };
    return chooseCautions({ frame: { ...frame, parameters }, plates }).map((caution) => caution.title);
  };

  it("warns of hydrogen chloride when PVC is in the job, and of laser fumes when a laser cuts", () => {
    expect(titles("router", "PVC-U")).toContain("Never cut PVC with a laser");
    expect(titles("router", "PE-HD")).not.toContain("Never cut PVC with a laser");
    expect(titles("laser", "PMMA")).toContain("Laser fumes and fire");
    expect(titles("router", "PMMA")).not.toContain("Laser fumes and fire");
    expect(titles("waterjet", "PMMA")).toContain("High-pressure jet");
    expect(text).toContain("hydrogen chloride");
  });

  it("always defers to local rules and qualified people", () => {
    for (const method of ["router", "laser", "waterjet"] as const) {
      expect(titles(method, "PE-HD").at(-1)).toBe("Rules and qualified people come first");
    }
  });
});

function cheekArea(): number {
  // Trapezium less what its four corners lose to radius 12, two rod holes and two slots.
  const half = Math.atan2(170, 40);
  const loss = (angle: number): number => 12 ** 2 * (1 / Math.tan(angle / 2) - (Math.PI - angle) / 2);
  const corners = 2 * loss(half) + 2 * loss(Math.PI - half);
  return ((300 + 220) / 2) * 170 - corners - 2 * Math.PI * 3.3 ** 2 - 2 * 40 * 10;
}
