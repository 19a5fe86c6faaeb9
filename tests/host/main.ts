import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { sum, type Outcome } from './checks.ts';
import { describe } from './failure.ts';
import { runFaults } from './faults.ts';
import { packed } from './install-package.ts';
import { runNeovim } from './neovim.ts';
import { runFollowingFilm } from './following-film.ts';
import { runNewcomer } from './newcomer.ts';
import { runPackage } from './package.ts';
import { runPages } from './pages.ts';
import { runPandas } from './pandas.ts';
import { runPreviewPage } from './preview-page.ts';
import { runExtensionSuite } from './runner.ts';
import { setUp, type SetUp } from './setup.ts';
import { runStructuredReport } from './structured-report.ts';
import { runUi } from './ui.ts';
import { ROOT, SUBJECT_OPTIONS, underTest, type UnderTest } from './under-test.ts';
import { runVim } from './vim.ts';
import { runWeb } from './web.ts';

const RESULT = join(ROOT, '.cache', 'host-result.json');
// For what none of the limits inside sees.
const LIMIT_MINUTES = 45;

const outcomes: Outcome[] = [];

setTimeout(() => {
  console.error(`The host tests were not done after ${LIMIT_MINUTES} minutes and are stopped.`);
  finish([...outcomes, failure()]);
}, LIMIT_MINUTES * 60_000).unref();

const parts: [string, (subject: UnderTest, host: () => Promise<SetUp>) => Promise<Outcome>][] = [
  ['package', runPackage],
  ['preview page', runPreviewPage],
  ['pages', runPages],
  ['extension suite', runExtensionSuite],
  ['editor in a browser', runUi],
  ['newcomer', runNewcomer],
  ['following film', runFollowingFilm],
  ['faults', runFaults],
  ['web host', runWeb],
  ['Neovim', runNeovim],
  ['colours in Vim', runVim],
  ['structured report', runStructuredReport],
  ['data package', runPandas],
];
try {
  const { only, ...named } = parseArgs({ options: { ...SUBJECT_OPTIONS, only: { type: 'string' } } }).values;
  const folder = underTest(named);
  // From the package, as a stranger has it, unless a folder is named.
  const subject = named.extension === undefined ? packed(folder) : folder;
  const host = once(setUp);
  const chosen = parts.filter(([name]) => only === undefined || name === only);
  if (chosen.length === 0) throw new Error(`--only names none of: ${parts.map(([name]) => name).join(', ')}`);
  for (const [name, part] of chosen) outcomes.push(await attempt(name, () => part(subject, host)));
} catch (error) {
  console.error(describe(error));
  outcomes.push(failure());
}
finish(outcomes);

async function attempt(name: string, part: () => Promise<Outcome>): Promise<Outcome> {
  try {
    return await part();
  } catch (error) {
    console.error(`  FAIL  ${name}: ${describe(error)}`);
    return failure();
  }
}

function failure(): Outcome {
  return { passed: 0, failed: 1, skipped: [] };
}

// Two parts need it and either may be first; a set-up that failed is not tried a second time.
function once<T>(work: () => Promise<T>): () => Promise<T> {
  let result: Promise<T> | undefined;
  return () => (result ??= work());
}

function finish(all: Outcome[]): never {
  const total = sum(all);
  mkdirSync(join(ROOT, '.cache'), { recursive: true });
  writeFileSync(RESULT, `${JSON.stringify(total, null, 2)}\n`);
  console.log(`host tests: ${total.passed} passed, ${total.failed} failed, ${total.skipped.length} skipped`);
  // Not by its status alone: something still open in a library must not keep the process alive.
  process.exit(total.failed > 0 ? 1 : 0);
}
