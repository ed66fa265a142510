import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const source = (packageName: string) =>
  fileURLToPath(new URL(`./packages/${packageName}/src/index.ts`, import.meta.url));

export default defineConfig({
  resolve: {
    alias: {
      "@keelcut/geometry": source("geometry"),
      "@keelcut/nesting": source("nesting"),
    },
  },
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 30_000,
    benchmark: { include: ["tests/benchmarks/**/*.bench.ts"] },
  },
});
