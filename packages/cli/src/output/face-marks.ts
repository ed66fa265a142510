import { type Finding, type Path, type Plate, placePath, placeRegion, type Region } from "@keelcut/geometry";
import { plateLabel } from "./part-label.js";
import { markPaths } from "./plate-cuts.js";

/** What is drawn on the upper face of a plate as it lies, before it is turned and shifted to its place. */
export interface FaceMarks {
  readonly paths: readonly Path[];
  readonly findings: readonly Finding[];
}

const mirror = { x: 0, y: 0, rotation: 0, mirrored: true };

/**
 * The plate's marks and its label. A plate laid upside down shows its back: lines are mirrored with it, the label is
 * set anew so that it reads, and the plate's own texts are left out, because they belong to the other face.
 *
 * `labels` holds the texts that name the plate, the fullest first; the first that fits is drawn. `region` is what is cut, in the plate's frame; the paths are in the plate's frame, or in its mirror image.
 */
export function faceMarks(
  plate: Plate,
  region: Region,
  labels: readonly string[],
  mirrored: boolean,
): FaceMarks {
  if (!mirrored) {
    const own = markPaths(plate);
    const name = plateLabel(region, labels, own.paths, plate.id);
    return { paths: [...own.paths, ...name.paths], findings: [...own.findings, ...name.findings] };
  }
  const lines = markPaths({ ...plate, marks: plate.marks.filter((mark) => mark.kind === "line") });
  const own = lines.paths.map((path) => placePath(path, mirror));
  const name = plateLabel(placeRegion(region, mirror), labels, own, plate.id);
  const texts = plate.marks.filter((mark) => mark.kind === "text").length;
  const findings = texts === 0 ? [] : [textsOnOtherFace(plate.id, texts)];
  return { paths: [...own, ...name.paths], findings: [...findings, ...name.findings] };
}

function textsOnOtherFace(plateId: string, texts: number): Finding {
  return {
    id: "files.mark-left-out",
    severity: "note",
    place: plateId,
    message: `${texts} own text${texts === 1 ? "" : "s"} left out on copies laid upside down: allow no mirroring to keep them`,
    measured: texts,
    unit: "texts",
    why: "a text on the back would be mirrored and on the wrong face",
    source: "geometry: the plate's face lies down",
  };
}
