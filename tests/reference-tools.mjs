// Installs the independent readers that the tests compare against, where this machine allows it.
// With CI=true everything must be there: nothing may be skipped silently.
import { execFileSync, spawnSync } from "node:child_process";
import { existsSync } from "node:fs";

const tools = [
  { name: "ezdxf (DXF audit)", package: "python3-ezdxf", present: () => python("ezdxf") },
  { name: "shapely (areas and distances)", package: "python3-shapely", present: () => python("shapely") },
  { name: "ogrinfo (DXF reader)", package: "gdal-bin", present: () => runs("ogrinfo", "--version") },
  {
    name: "rsvg-convert (SVG raster)",
    package: "librsvg2-bin",
    present: () => runs("rsvg-convert", "--version"),
  },
  { name: "pdftoppm (PDF raster)", package: "poppler-utils", present: () => runs("pdftoppm", "-v") },
  { name: "chromium (page)", package: "chromium", present: () => existsSync("/usr/bin/chromium") },
  {
    name: "fonts for chromium",
    package: "fonts-dejavu-core",
    present: () => existsSync("/usr/share/fonts/truetype/dejavu"),
  },
  {
    name: "LibreOffice Calc (workbook)",
    package: "libreoffice-calc",
    present: () => runs("soffice", "--version"),
  },
];

const missing = tools.filter((tool) => !tool.present());
if (missing.length > 0 && process.getuid?.() === 0 && runs("apt-get", "--version")) {
  console.log(`Installing reference readers: ${missing.map((tool) => tool.package).join(" ")}`);
  const quiet = {
    stdio: ["ignore", "ignore", "inherit"],
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
  };
  try {
    execFileSync("apt-get", ["update", "-qq"], quiet);
    const names = missing.map((tool) => tool.package);
    execFileSync("apt-get", ["install", "-y", "-qq", "--no-install-recommends", ...names], quiet);
  } catch (error) {
    console.log(`apt-get did not install them: ${error.message}`);
  }
}

const absent = tools.filter((tool) => !tool.present());
for (const tool of absent) console.log(`SKIPPED without ${tool.package}: checks against ${tool.name}`);
if (absent.length > 0 && process.env.CI === "true") {
  console.error("CI must skip nothing: the packages above are missing.");
  process.exit(1);
}

function runs(command, argument) {
  return spawnSync(command, [argument], { stdio: "ignore" }).error === undefined;
}

function python(module) {
  return spawnSync("/usr/bin/python3", ["-c", `import ${module}`], { stdio: "ignore" }).status === 0;
}
