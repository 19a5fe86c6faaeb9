import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    setupFiles: ['tests/fixed-seed.ts'],
    include: ['tests/{unit,published,property,protocol}/**/*.test.ts'],
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
