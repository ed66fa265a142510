import { readFileSync } from "node:fs";
import { join } from "node:path";
import { outside } from "./dxf-outside.js";

/** Ten pixels to the millimetre. */
const DPI = 254;

export interface Grey {
  readonly width: number;
  readonly height: number;
  readonly dark: (x: number, y: number) => boolean;
}

/** One page as grey pixels (PGM, "P5"). */
export function page(path: string, number: number, folder: string): Grey {
  const out = join(folder, `page-${number}`);
  outside("pdftoppm", [
    "-r",
    String(DPI),
    "-gray",
    "-f",
    String(number),
    "-l",
    String(number),
    "-singlefile",
    path,
    out,
  ]);
  const data = readFileSync(`${out}.pgm`);
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(data.toString("latin1", 0, 60));
  if (head === null) throw new Error("no PGM");
  const [width, height] = [Number(head[1]), Number(head[2])];
  return { width, height, dark: (x, y) => (data[head[0].length + y * width + x] ?? 255) < 160 };
}

/** Longest unbroken dark run in a row, pixels. */
export function longestRun(picture: Grey, y: number): number {
  let best = 0;
  let run = 0;
  for (let x = 0; x < picture.width; x++) {
    run = picture.dark(x, y) ? run + 1 : 0;
    best = Math.max(best, run);
  }
  return best;
}

/** Length of the check bar, mm: between the middles of its end ticks, which alone reach 1.5 mm above it. */
export function barLength(picture: Grey): number {
  let bar = picture.height - 1;
  for (let y = picture.height - 300; y < picture.height; y++) {
    if (longestRun(picture, y) > longestRun(picture, bar)) bar = y;
  }
  const dark = Array.from({ length: picture.width }, (_, x) => x).filter((x) => picture.dark(x, bar - 15));
  const left = dark.filter((x) => x < 500);
  const right = dark.filter((x) => x > 500 && x < 1130);
  const middle = (run: readonly number[]): number => (Math.min(...run) + Math.max(...run)) / 2;
  return (middle(right) - middle(left)) / 10;
}
