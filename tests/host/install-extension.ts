import { cpSync, existsSync, mkdirSync, readFileSync, statSync } from 'node:fs';
import { join, normalize, sep } from 'node:path';
import { Failure } from './failure.ts';
import type { UnderTest } from './under-test.ts';

interface Manifest {
  name: string;
  publisher: string;
  version: string;
  files?: string[];
  [field: string]: unknown;
}

const ALWAYS = ['package.json', 'package.nls.json', 'README.md', 'CHANGELOG.md', 'LICENSE', 'dist'];
const NEVER = new Set(['node_modules', 'tests', '.git', '.cache', 'out']);

/**
 * Puts a built checkout where the host looks for installed extensions: the files a package would hold. A package that
 * was unpacked goes there whole.
 */
export function installExtension({ extension: checkout, vsix }: UnderTest, extensionsFolder: string): string {
  const manifest = JSON.parse(readFileSync(join(checkout, 'package.json'), 'utf8')) as Manifest;
  const target = join(extensionsFolder, `${manifest.publisher}.${manifest.name}-${manifest.version}`);
  mkdirSync(target, { recursive: true });
  if (vsix !== null) {
    cpSync(checkout, target, { recursive: true });
    return target;
  }
  for (const entry of entriesOf(checkout, manifest)) {
    cpSync(join(checkout, entry), join(target, entry), { recursive: true });
  }
  return target;
}

function entriesOf(checkout: string, manifest: Manifest): Set<string> {
  const entries = new Set(ALWAYS.filter((name) => existsSync(join(checkout, name))));
  for (const path of namedPaths(checkout, manifest)) {
    const clean = normalize(path).replace(/[\\/]+$/, '');
    const [top] = clean.split(sep);
    if (top === undefined || top === '..' || top.includes('*') || NEVER.has(top)) continue;
    if (!existsSync(join(checkout, clean)) && !present(checkout, clean)) {
      throw new Failure(
        `package.json names ${path}, and there is no such file in ${checkout}`,
        'run npm run build, or mend the path in package.json',
      );
    }
    // The whole folder: an icon's or a walkthrough's neighbours are named in files we do not read.
    entries.add(top);
  }
  return entries;
}

function namedPaths(checkout: string, { files = [], main, browser, icon, contributes }: Manifest): string[] {
  const surely = [main, browser, icon].filter((path) => typeof path === 'string');
  // A contribution's texts are paths where they begin like one, or where there is such a file.
  const perhaps = textsIn(contributes).filter(
    (text) => text.startsWith('./') || (!/\s/.test(text) && isFile(join(checkout, text))),
  );
  return [...files, ...surely, ...perhaps];
}

function isFile(path: string): boolean {
  return statSync(path, { throwIfNoEntry: false })?.isFile() ?? false;
}

// `main` may leave its `.js` out.
function present(checkout: string, path: string): boolean {
  return existsSync(join(checkout, `${path}.js`));
}

function textsIn(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(textsIn);
}
