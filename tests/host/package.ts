import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { Checks, type Outcome } from './checks.ts';
import type { UnderTest } from './under-test.ts';

/** Bytes of the one file that is installed, with its pictures. */
const MOST = 3_000_000;

/** What is in the package, and what is not. The other parts run from it. */
export async function runPackage({ vsix, extension }: UnderTest): Promise<Outcome> {
  const checks = new Checks();
  if (vsix === null) {
    const why = '--extension names a folder, so nothing was packed';
    console.log(`The package: not run: ${why}`);
    return { passed: 0, failed: 0, skipped: [{ name: 'the package', why }] };
  }
  console.log('The package');
  const inside = readdirSync(extension, { recursive: true, encoding: 'utf8' }).map((path) => path.replaceAll(sep, '/'));
  const read = (name: string): string => readFileSync(join(extension, name), 'utf8');
  await checks.check(`is smaller than ${MOST / 1e6} MB`, 20, async () => {
    const { size } = statSync(vsix);
    console.log(`    ${(size / 1e6).toFixed(2)} MB`);
    if (size > MOST) throw new Error(`it has ${size} bytes`);
  });
  await checks.check('holds no source, test, case or library beside the bundles', 20, async () => {
    const odd = inside.filter((path) =>
      /(?:^|\/)(?:node_modules|tests|src|shared|server|scripts|\.[^/]+)(?:\/|$)|\.(?:tsx?|hoof)$/.test(path),
    );
    if (odd.length > 0) throw new Error(odd.join(', '));
  });
  await checks.check('each file that the manifest names is in it', 20, async () => {
    const named = textsIn(JSON.parse(read('package.json'))).filter(
      (text) => /^[\w./-]+\.(?:c?js|json|md|png|svg)$/.test(text) && text.includes('/'),
    );
    if (named.length < 10) throw new Error(`the manifest names only ${named.length} files`);
    const missing = named.filter((path) => !existsSync(join(extension, path)));
    if (missing.length > 0) throw new Error(missing.join(', '));
  });
  await checks.check('each page that its pages point to is in it', 20, async () => {
    const broken = inside.filter((path) => path.endsWith('.md')).flatMap((page) => brokenLinks(extension, page));
    if (broken.length > 0) throw new Error(broken.join('\n'));
  });
  return checks.outcome;
}

function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsIn) : [];
}

/** For those who have the repository; a page may point there. */
const ofTheRepository =
  /^(?:DEVELOPERS|CONTRIBUTING|SECURITY|CODE_OF_CONDUCT)\.md$|^(?:examples|tests|scripts|\.github)(?:\/|$)/;

function brokenLinks(extension: string, page: string): string[] {
  const text = readFileSync(join(extension, page), 'utf8').replace(/^```[\s\S]*?^```/gm, '');
  return [...text.matchAll(/\]\(([^)\s#]+)(?:#[^)]*)?\)/g)].flatMap(([, target = '']) => {
    if (/^[a-z]+:/.test(target)) return [];
    const file = join(extension, page, '..', target);
    const path = relative(extension, file);
    return existsSync(file) || ofTheRepository.test(path) ? [] : [`${page}: ${path}`];
  });
}
