// What `npm start` does, on a bare clone too: install, build, check the examples, write a report of them.
// Plain JavaScript for Node 20: this runs before anything is installed.
import { existsSync, mkdirSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { install } from './install.mjs';
import { ROOT, elapsed, npm, run } from './steps.mjs';

const began = Date.now();
const page = join(ROOT, 'out', 'report.html');
mkdirSync(join(ROOT, 'out'), { recursive: true });

const cli = [process.execPath, join('dist', 'cli.js')];
/** The lessons below are left out: their sheets are empty. */
const cases = readdirSync(join(ROOT, 'examples'))
  .filter((name) => name.endsWith('.hoof'))
  .map((name) => join('examples', name));
const byHand = 'run the same command by itself, and see what it says above';
const steps = [
  () => install(),
  () =>
    run({
      title: 'Building (npm run build)',
      argv: npm('run', '--silent', 'build'),
      limitMinutes: 10,
      remedy: 'mend what the build names above; if it is about a missing package, run npm ci',
    }),
  () =>
    run({
      title: 'Checking the examples (node dist/cli.js check examples)',
      argv: [...cli, 'check', 'examples'],
      limitMinutes: 2,
      good: [0, 1],
      remedy: byHand,
    }),
  () => {
    console.log(
      '   Findings are expected here: one of the examples is full of mistakes, to show what is found, and one of the lessons is a plan that must not be done.',
    );
    return run({
      title: 'Writing a report (node dist/cli.js report examples/*.hoof -o out/report.html)',
      argv: [...cli, 'report', ...cases, '-o', join('out', 'report.html')],
      limitMinutes: 5,
      remedy: byHand,
    });
  },
];

for (const step of steps) {
  if (!(await step())) process.exit(1);
}
if (!existsSync(page)) {
  console.log(`-- FAILED: there is no ${page}\n   what to do: ${byHand}`);
  process.exit(1);
}

console.log(`
All of it took ${elapsed(began)}. Next:
  the report of the examples, for a browser:  ${page}
  the editor with the examples opened:        npm run try
  the tests:                                  npm test`);
