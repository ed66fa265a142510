import { spawnSync } from "node:child_process";
import dxfParser, { type IDxf } from "dxf-parser";

/** Programs that read our files as strangers would; in CI they must be there. */
export function outside(command: string, args: readonly string[], input?: string): string {
  const run = spawnSync(command, args, {
    encoding: "utf8",
    maxBuffer: 200_000_000,
    ...(input === undefined ? {} : { input }),
  });
  if (run.error !== undefined) throw run.error;
  if (run.status !== 0) throw new Error(`${command} ended with ${run.status}: ${run.stderr}`);
  return run.stdout;
}

/** Whether a program runs here. Says so when it does not, and fails in CI, where nothing may be skipped. */
export function present(what: string, command: string, args: readonly string[]): boolean {
  const run = spawnSync(command, args, { encoding: "utf8" });
  const there = run.error === undefined && run.status === 0;
  if (!there && process.env["CI"] === "true") throw new Error(`${what} is missing, and CI must skip nothing`);
  if (!there) console.warn(`skipped here: checks with ${what}, which is not installed`);
  return there;
}

export const hasEzdxf: boolean = present("python3-ezdxf", "/usr/bin/python3", ["-c", "import ezdxf"]);
export const hasShapely: boolean = present("python3-shapely", "/usr/bin/python3", ["-c", "import shapely"]);
export const hasOgr: boolean = present("ogrinfo (gdal-bin)", "ogrinfo", ["--version"]);
export const hasRsvg: boolean = present("rsvg-convert (librsvg2-bin)", "rsvg-convert", ["--version"]);

export interface EzdxfEntity {
  readonly type: string;
  readonly layer: string;
  readonly closed?: boolean;
  readonly points?: readonly (readonly [number, number, number])[];
  readonly center?: readonly [number, number];
  readonly radius?: number;
  readonly color: number;
}

export interface EzdxfFile {
  readonly version: string;
  readonly units: number;
  readonly measurement: number;
  readonly extmin: readonly number[];
  readonly extmax: readonly number[];
  readonly complaints: readonly string[];
  readonly layers: Readonly<Record<string, number>>;
  readonly entities: readonly EzdxfEntity[];
}

const SCRIPT = `
import sys, json, ezdxf
out = []
for path in sys.argv[1:]:
    d = ezdxf.readfile(path)
    a = d.audit()
    es = []
    for e in d.modelspace():
        r = {"type": e.dxftype(), "layer": e.dxf.layer, "color": e.dxf.get("color", 256)}
        if e.dxftype() == "LWPOLYLINE":
            r["closed"] = e.closed
            r["points"] = [list(p) for p in e.get_points("xyb")]
        elif e.dxftype() == "POLYLINE":
            r["closed"] = e.is_closed
            r["points"] = [[v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0)] for v in e.vertices]
        elif e.dxftype() == "CIRCLE":
            r["center"] = [e.dxf.center.x, e.dxf.center.y]
            r["radius"] = e.dxf.radius
        es.append(r)
    out.append({"version": d.dxfversion, "units": d.header.get("$INSUNITS"), "measurement": d.header.get("$MEASUREMENT"),
        "extmin": list(d.header.get("$EXTMIN")), "extmax": list(d.header.get("$EXTMAX")),
        "complaints": [e.message for e in a.errors] + [e.message for e in a.fixes],
        "layers": {l.dxf.name: l.color for l in d.layers}, "entities": es})
print(json.dumps(out))
`;

/** Reads files with python3-ezdxf and audits them. */
export function readWithEzdxf(paths: readonly string[]): EzdxfFile[] {
  return JSON.parse(outside("/usr/bin/python3", ["-c", SCRIPT, ...paths])) as EzdxfFile[];
}

/** Reads a file with dxf-parser, whose module is the class itself, whatever its types say. */
export function parseDxf(text: string): IDxf | null {
  const Parser = dxfParser as unknown as typeof dxfParser.DxfParser;
  return new Parser().parseSync(text);
}
