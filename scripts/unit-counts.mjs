import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { ROOT } from './steps.mjs';

export const UNIT_COUNTS = join(ROOT, '.cache', 'unit-result.json');

/**
 * A vitest reporter that keeps what the last lines of `npm test` need. vitest's own JSON leaves out why a test
 * was skipped, and errors that belong to no test.
 */
export default class UnitCounts {
  /**
   * @param {ReadonlyArray<import('vitest/node').TestModule>} modules
   * @param {ReadonlyArray<unknown>} strayErrors
   */
  onTestRunEnd(modules, strayErrors) {
    const counts = { passed: 0, failed: strayErrors.length, skipped: /** @type {object[]} */ ([]) };
    for (const module of modules) {
      // A file that could not be loaded has no tests to fail.
      counts.failed += module.errors().length;
      for (const test of module.children.allTests()) {
        const result = test.result();
        if (result.state === 'passed') counts.passed += 1;
        else if (result.state === 'skipped') {
          const [title, why] = reasonIn(test.fullName, result.note);
          counts.skipped.push({ name: `${relative(ROOT, module.moduleId)}: ${title}`, why });
        } else counts.failed += 1;
      }
    }
    mkdirSync(dirname(UNIT_COUNTS), { recursive: true });
    writeFileSync(UNIT_COUNTS, `${JSON.stringify(counts, null, 2)}\n`);
  }
}

/**
 * The reason, from `context.skip('not run: …')` or from the title, and the title without it.
 * @param {string} title
 * @param {string | undefined} note
 * @returns {[title: string, why: string | null]}
 */
function reasonIn(title, note) {
  const [before = title, ...after] = title.split(/:? *not run: /);
  const why = note?.replace(/^not run: /, '') ?? after.join(' ');
  return [before, why === '' ? null : why];
}
