import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    setupFiles: ['tests/fixed-seed.ts'],
    include: ['tests/{unit,published,property,protocol}/**/*.test.ts'],
    testTimeout: 600_000,
    hookTimeout: 600_000,
    // Machines that test are busy: a wait that is over too soon would fail what is right.
    expect: { poll: { timeout: 120_000 } },
  },
});
