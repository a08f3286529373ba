import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

// The strict content security policy of the app allows no inline script: hence no module-preload polyfill.
export default defineConfig({
  root: "renderer",
  base: "./",
  plugins: [react()],
  worker: { format: "es" },
  build: { outDir: "../dist/renderer", emptyOutDir: true, modulePreload: { polyfill: false }, chunkSizeWarningLimit: 2000 },
});
