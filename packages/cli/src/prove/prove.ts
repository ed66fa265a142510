import { bounds, type Contour, type Finding } from "@keelcut/geometry";
import type { Certificate } from "./certificate.js";
import type { Expectations, ExpectedPlate, ExpectedSheet, Format } from "./expectations.js";
import { type ExpectedCut, plateCuts, sheetCuts } from "./expected-cuts.js";
import { type ExpectedFile, type FileProof, proveFile } from "./prove-file.js";
import { proofFinding } from "./prove-finding.js";
import { spacing } from "./spacing.js";

/** One written file. Only drawings are looked at: names that end in `.dxf` or `.svg`. */
export interface WrittenFile {
  /** With or without folders before it. */
  readonly name: string;
  readonly text: string;
}

/**
 * Proves a job's files against its record: reads every drawing as a stranger would, rebuilds every sheet and plate,
 * and compares. Pure: the same files and record give the same certificate. Findings name the file and the place.
 *
 * @throws RangeError when the record contradicts itself: a placement of no plate, a kerf a plate cannot be cut with.
 */
export function prove(files: readonly WrittenFile[], expectations: Expectations): Certificate {
  const drawings = drawingsByName(files);
  const findings: Finding[] = [...drawings.findings];
  const plates = new Map(expectations.plates.map((plate) => [plate.id, plate]));
  const tally = new Tally();
  for (const sheet of expectations.sheets) {
    findings.push(...nameFaults(sheet.name, sheet.times, expectations));
    const cuts = sheetCuts(sheet, plates, expectations.size);
    const proofs = proveFormats(sheet.name, drawings.byName, expectations, findings, (format, text) =>
      proveFile(text, {
        place: `${sheet.name}.${format}`,
        format,
        layers: expectations.layers,
        cuts,
        stock: sheet.reference.stock ? [sheet.stockOutline, ...sheet.keepOuts] : [],
        markStrokes: sheet.reference.markStrokes,
        noteStrokes: sheet.reference.noteStrokes,
        leadIns: sheet.reference.leadIns,
        aroundLeadIns: aroundLeadIns(expectations, [sheet.stockOutline, ...sheet.keepOuts]),
        ...gapOf(expectations),
        printed: false,
        noteAbove: bounds(sheet.stockOutline).maxY,
      }),
    );
    for (const [format, proof] of proofs) {
      const space = spacing(`${sheet.name}.${format}`, proof.regions, sheet, expectations);
      findings.push(...space.findings);
      tally.space(space.leastGap, space.leastMargin);
    }
    tally.sheet(sheet, [...proofs.values()]);
  }
  for (const file of expectations.plateFiles) {
    const plate = plates.get(file.plate);
    if (plate === undefined) throw new RangeError(`${file.name} shows "${file.plate}", which is no plate`);
    findings.push(...nameFaults(file.name, file.quantity, expectations, plate));
    const cuts = plateCuts(plate, expectations.size);
    const proofs = proveFormats(file.name, drawings.byName, expectations, findings, (format, text) =>
      proveFile(text, {
        place: `${file.name}.${format}`,
        format,
        layers: expectations.layers,
        cuts,
        stock: [],
        ...file.reference,
        aroundLeadIns: aroundLeadIns(expectations, []),
        ...gapOf(expectations),
        printed: plate.printed === true,
        noteAbove: topOf(cuts),
      }),
    );
    tally.plateFile([...proofs.values()]);
  }
  findings.push(...drawings.unexpected(expectations), ...countFaults(expectations, tally.copies));
  return tally.certificate(expectations, findings);
}

function gapOf({ bridgeGap }: Expectations): { readonly bridgeGap?: number } {
  return bridgeGap === undefined ? {} : { bridgeGap };
}

interface Drawings {
  readonly byName: ReadonlyMap<string, string>;
  readonly findings: readonly Finding[];
  readonly unexpected: (expectations: Expectations) => Finding[];
}

function drawingsByName(files: readonly WrittenFile[]): Drawings {
  const byName = new Map<string, string>();
  const findings: Finding[] = [];
  for (const { name, text } of files) {
    const base = name.slice(Math.max(name.lastIndexOf("/"), name.lastIndexOf("\\")) + 1);
    if (!/\.(dxf|svg)$/i.test(base)) continue;
    if (byName.has(base)) findings.push(proofFinding("extra", name, "there are two files of this name"));
    byName.set(base, text);
  }
  const unexpected = ({ sheets, plateFiles, formats }: Expectations): Finding[] => {
    const wanted = [...sheets, ...plateFiles].flatMap(({ name }) =>
      formats.map((format) => `${name}.${format}`),
    );
    return [...byName.keys()]
      .filter((name) => !wanted.includes(name))
      .map((name) => proofFinding("extra", name, "this drawing is not in the job's record"));
  };
  return { byName, findings, unexpected };
}

function proveFormats(
  name: string,
  byName: ReadonlyMap<string, string>,
  { formats }: Expectations,
  findings: Finding[],
  one: (format: Format, text: string) => FileProof,
): Map<Format, FileProof> {
  const proofs = new Map<Format, FileProof>();
  for (const format of formats) {
    const text = byName.get(`${name}.${format}`);
    if (text === undefined)
      findings.push(proofFinding("missing", `${name}.${format}`, "the file is missing"));
    else {
      const proof = one(format, text);
      proofs.set(format, proof);
      findings.push(...limited(proof.findings, `${name}.${format}`));
    }
  }
  return proofs;
}

/** A broken file would fill pages: the first few places, and how many more. */
const MOST_FINDINGS = 20;

function limited(findings: readonly Finding[], place: string): readonly Finding[] {
  if (findings.length <= MOST_FINDINGS) return findings;
  const more = findings.length - MOST_FINDINGS;
  return [
    ...findings.slice(0, MOST_FINDINGS),
    proofFinding("more", place, `${more} more findings in this file`),
  ];
}

/** The name itself says how many to cut, and whether lines are compensated: it is all some people read. */
function nameFaults(name: string, copies: number, { size }: Expectations, plate?: ExpectedPlate): Finding[] {
  const findings: Finding[] = [];
  const { count: said, state } = /-x(?<count>\d+)(?<state>-compensated-[\d.]+mm)?$/.exec(name)?.groups ?? {};
  if (Number(said) !== copies) {
    findings.push(proofFinding("name", name, `the name says x${said ?? "?"}, the record says x${copies}`));
  }
  const compensated = size.state === "compensated" && plate?.printed !== true;
  if ((state !== undefined) !== compensated) {
    const lines = compensated ? "compensated" : "nominal";
    findings.push(proofFinding("name", name, `the lines are ${lines}, but the name says otherwise`));
  }
  return findings;
}

function countFaults({ plates }: Expectations, copies: ReadonlyMap<string, number>): Finding[] {
  return plates
    .filter((plate) => plate.printed !== true && (copies.get(plate.id) ?? 0) !== plate.copies)
    .map((plate) => {
      const has = copies.get(plate.id) ?? 0;
      const message = `the sheets give ${has} of ${plate.id}, the job needs ${plate.copies}`;
      return proofFinding("count", plate.id, message, has, plate.copies);
    });
}

/** A cut that a shop moves off a line lies half its width beside it; a compensated line lies there already. */
function aroundLeadIns(
  { size, cutRadius }: Expectations,
  around: readonly Contour[],
): ExpectedFile["aroundLeadIns"] {
  return { beyondLines: size.state === "nominal" ? cutRadius : 0, cutRadius, around };
}

function topOf(cuts: readonly ExpectedCut[]): number {
  return Math.max(...cuts.map((cut) => bounds(cut.cut).maxY));
}

/** Adds up what was seen. */
class Tally {
  readonly copies: Map<string, number> = new Map();
  #files = 0;
  #contours = 0;
  #arcs = 0;
  #bridges = 0;
  #largest = 0;
  #gap = Number.POSITIVE_INFINITY;
  #margin = Number.POSITIVE_INFINITY;

  /** A plate counts when every format of the sheet shows it. */
  sheet(sheet: ExpectedSheet, proofs: readonly FileProof[]): void {
    this.plateFile(proofs);
    for (const id of new Set(sheet.placements.map((placement) => placement.plate))) {
      const shown = proofs.length === 0 ? 0 : Math.min(...proofs.map((proof) => proof.outlines.get(id) ?? 0));
      this.copies.set(id, (this.copies.get(id) ?? 0) + shown * sheet.times);
    }
  }

  plateFile(proofs: readonly FileProof[]): void {
    for (const proof of proofs) {
      this.#files += 1;
      this.#contours += proof.contours;
      this.#arcs += proof.arcs;
      this.#bridges += proof.bridges;
      this.#largest = Math.max(this.#largest, proof.largest);
    }
  }

  space(gap: number, margin: number): void {
    this.#gap = Math.min(this.#gap, gap);
    this.#margin = Math.min(this.#margin, margin);
  }

  certificate({ sheets, size }: Expectations, findings: readonly Finding[]): Certificate {
    return {
      proved: findings.length === 0,
      size,
      files: this.#files,
      layouts: sheets.length,
      sheets: sheets.reduce((sum, sheet) => sum + sheet.times, 0),
      copies: [...this.copies.values()].reduce((sum, count) => sum + count, 0),
      contours: this.#contours,
      arcs: this.#arcs,
      bridges: this.#bridges,
      ...(Number.isFinite(this.#gap) ? { leastGap: this.#gap } : {}),
      ...(Number.isFinite(this.#margin) ? { leastMargin: this.#margin } : {}),
      largestDeviation: this.#largest,
      findings,
    };
  }
}
