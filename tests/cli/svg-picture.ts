import { spawnSync } from "node:child_process";
import { inflateSync } from "node:zlib";

/** A picture as rows of RGBA bytes. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array;
}

/** Draws an SVG text with rsvg-convert; `zoom` 1 is 96 pixels to the inch. */
export function rasterise(svg: string, zoom: number): Picture {
  const run = spawnSync("rsvg-convert", ["--zoom", String(zoom), "--background-color", "white"], {
    input: svg,
    maxBuffer: 200_000_000,
  });
  if (run.status !== 0) throw new Error(`rsvg-convert: ${run.stderr}`);
  return decodePng(run.stdout);
}

/** Part of the picture's area that is dark, in pixels; grey edges count in part. */
export function darkArea(picture: Picture): number {
  let light = 0;
  for (let i = 0; i < picture.rgba.length; i += 4) light += (picture.rgba[i] ?? 0) / 255;
  return picture.width * picture.height - light;
}

/** PNG of 8 bit RGB or RGBA without interlace (ISO/IEC 15948), which is what rsvg-convert and Chromium write. */
export function decodePng(data: Buffer): Picture {
  const width = data.readUInt32BE(16);
  const height = data.readUInt32BE(20);
  const channels = data[25] === 6 ? 4 : 3;
  if (data[24] !== 8 || (data[25] !== 6 && data[25] !== 2) || data[28] !== 0)
    throw new Error("unexpected PNG");
  const parts: Buffer[] = [];
  for (let at = 8; at < data.length; ) {
    const length = data.readUInt32BE(at);
    if (data.toString("latin1", at + 4, at + 8) === "IDAT")
      parts.push(data.subarray(at + 8, at + 8 + length));
    at += length + 12;
  }
  const raw = inflateSync(Buffer.concat(parts));
  const stride = width * channels;
  const rows = new Uint8Array(stride * height);
  for (let y = 0; y < height; y++) {
    const filter = raw[y * (stride + 1)] ?? 0;
    for (let x = 0; x < stride; x++) {
      const left = x >= channels ? (rows[y * stride + x - channels] ?? 0) : 0;
      const up = y > 0 ? (rows[(y - 1) * stride + x] ?? 0) : 0;
      const corner = x >= channels && y > 0 ? (rows[(y - 1) * stride + x - channels] ?? 0) : 0;
      const guess = [0, left, up, (left + up) >> 1, paeth(left, up, corner)][filter] ?? 0;
      rows[y * stride + x] = (raw[y * (stride + 1) + 1 + x] ?? 0) + guess;
    }
  }
  const rgba = new Uint8Array(width * height * 4).fill(255);
  for (let i = 0; i < width * height; i++) {
    for (let c = 0; c < channels; c++) rgba[i * 4 + c] = rows[i * channels + c] ?? 0;
  }
  return { width, height, rgba };
}

function paeth(a: number, b: number, c: number): number {
  const p = a + b - c;
  const [pa, pb, pc] = [Math.abs(p - a), Math.abs(p - b), Math.abs(p - c)];
  return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
}
