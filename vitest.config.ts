import { defineConfig } from "vitest/config";

export default defineConfig({
  test: {
    projects: [
      {
        test: {
          name: "unit",
          environment: "node",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/browser/**", "tests/bench/**"],
          // Property tests take seconds where the machine is busy.
          testTimeout: 60_000,
          // On two cores the default is one worker, and half as fast.
          maxWorkers: "100%",
        },
      },
      {
        // Real Chromium, driven from Node over the built app in dist.
        test: {
          name: "browser",
          environment: "node",
          include: ["tests/browser/**/*.test.ts"],
          // Much of what they do is wait for sound to be heard.
          maxWorkers: 2,
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
