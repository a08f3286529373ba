import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    environment: "node",
    // A worker a core; left to itself the runner keeps one core free, which on two cores means one after the other.
    maxWorkers: "100%",
    // Time is measured in benches, not here: a busy machine is no failure.
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
});
