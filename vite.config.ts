import { readFileSync } from "node:fs";
import * as path from "node:path";
import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

const { version } = JSON.parse(readFileSync(path.join(import.meta.dirname, "package.json"), "utf8")) as {
  readonly version: string;
};

// The strict content security policy of the app allows no inline script and no font out of a data address: hence no
// module-preload polyfill, and nothing is inlined.
export default defineConfig({
  root: path.join(import.meta.dirname, "renderer"),
  base: "./",
  define: { "import.meta.env.LOOMWRIGHT_VERSION": JSON.stringify(version) },
  plugins: [react()],
  worker: { format: "es" },
  server: { host: "127.0.0.1" },
  build: {
    outDir: path.join(import.meta.dirname, "dist/renderer"),
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    chunkSizeWarningLimit: 2000,
  },
});
