// What `npm test` does, on a bare clone too: install, lint, types, build, unit tests, host tests, one sum.
// Plain JavaScript for Node 20: this runs before anything is installed.
import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { install } from './install.mjs';
import { ROOT, elapsed, heading, npm, run } from './steps.mjs';
import { UNIT_COUNTS } from './unit-counts.mjs';

const HOST_COUNTS = join(ROOT, '.cache', 'host-result.json');

/**
 * @typedef {{ name: string, why: string | null }} Skipped
 * @typedef {{ passed: number, failed: number, skipped: Skipped[] }} Counts
 */

/** @type {{ name: string, time: string, counts: Counts }[]} */
const done = [];

/** @param {{ name: string, title: string, argv: string[], limitMinutes: number, remedy: string, counts?: string }} step */
async function test({ name, counts, ...step }) {
  const began = Date.now();
  // Last run's numbers must not stand for this one's.
  if (counts !== undefined) rmSync(counts, { force: true });
  const well = await run(step);
  done.push({
    name,
    time: elapsed(began),
    counts: counts === undefined ? one(well) : counted(name, counts, well),
  });
  return well;
}

/** @param {boolean} well */
function one(well) {
  return { passed: well ? 1 : 0, failed: well ? 0 : 1, skipped: [] };
}

/**
 * @param {string} name
 * @param {string} file
 * @param {boolean} well
 * @returns {Counts}
 */
function counted(name, file, well) {
  /** @type {Counts} */
  let counts;
  try {
    counts = JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    console.log(`   ${name} left no counts\n   what to do: see above how it ended, and mend that first`);
    return one(false);
  }
  const unexplained = counts.skipped.filter(({ why }) => why === null);
  for (const { name } of unexplained) {
    console.log(
      `   skipped without a reason, so failed: ${name}\n   what to do: skip it with context.skip('not run: why')`,
    );
  }
  const failed = counts.failed + unexplained.length;
  const ran = counts.passed + failed > 0;
  if (!ran) console.log(`   ${name} ran no test\n   what to do: see that its files are found`);
  return {
    passed: counts.passed,
    // A run that failed without a failed test (a crash, a coverage limit) is a failure all the same.
    failed: failed === 0 && (!well || !ran) ? 1 : failed,
    skipped: counts.skipped.filter(({ why }) => why !== null),
  };
}

/**
 * @param {string} name
 * @param {string} why
 */
function skip(name, why) {
  heading(`${name}: not run: ${why}`);
  done.push({ name, time: '-', counts: { passed: 0, failed: 0, skipped: [{ name, why }] } });
}

const began = Date.now();
if (!(await install())) {
  done.push({ name: 'install', time: elapsed(began), counts: one(false) });
  for (const name of ['lint', 'types', 'build', 'unit tests', 'host tests']) skip(name, 'the install failed');
} else {
  await test({
    name: 'lint',
    title: 'Lint (npm run lint)',
    argv: npm('run', '--silent', 'lint'),
    limitMinutes: 5,
    remedy: 'mend the lines named above (npm run tidy mends the layout, npm run docs the pages made from the tables)',
  });
  await test({
    name: 'types',
    title: 'Types (npm run types)',
    argv: npm('run', '--silent', 'types'),
    limitMinutes: 5,
    remedy: 'mend the lines named above',
  });
  const built = await test({
    name: 'build',
    title: 'Build (npm run build)',
    argv: npm('run', '--silent', 'build'),
    limitMinutes: 10,
    remedy: 'mend what the build names above; if it is about a missing package, run npm ci',
  });
  await test({
    name: 'unit tests',
    title: 'Unit tests (npm run test:unit)',
    argv: npm('run', '--silent', 'test:unit', '--', '--reporter=default', '--reporter=./scripts/unit-counts.mjs'),
    limitMinutes: 35,
    remedy: 'run npx vitest with the name of the failing file, and mend the code or the test',
    counts: UNIT_COUNTS,
  });
  if (built) {
    await test({
      name: 'host tests',
      title: 'Host tests: the extension in a real editor (npm run test:host)',
      argv: npm('run', '--silent', 'test:host'),
      limitMinutes: 50,
      remedy: 'see the lines marked FAIL above; out/screenshots/last-failure.png shows the editor at that time',
      counts: HOST_COUNTS,
    });
  } else skip('host tests', 'the build failed, so there is no extension to try');
}

heading(`Summary, after ${elapsed(began)}`);
for (const { name, time, counts } of done) {
  const { passed, failed, skipped } = counts;
  console.log(`${name.padEnd(12)}${time.padStart(10)}   passed ${passed}, failed ${failed}, skipped ${skipped.length}`);
}
const skipped = done.flatMap(({ counts }) => counts.skipped);
for (const { name, why } of skipped) console.log(`skipped: ${name}: not run: ${why}`);

const passed = done.reduce((total, { counts }) => total + counts.passed, 0);
const failed = done.reduce((total, { counts }) => total + counts.failed, 0);
process.exitCode = failed > 0 ? 1 : 0;
console.log(`\n${passed} passed, ${failed} failed, ${skipped.length} skipped`);
