// `npm run package`: the extension as one file that any VS Code installs. It holds what `files` in package.json names, with the
// licences of what is bundled (THIRD-PARTY.txt) and a bill of materials (sbom.cdx.json).
import { mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { writeBill } from './bill-of-materials.mjs';
import { ROOT, run } from './steps.mjs';

const { name, version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
const out = join('out', `${name}-${version}.vsix`);
mkdirSync(join(ROOT, 'out'), { recursive: true });
await writeBill(
  JSON.parse(readFileSync(join(ROOT, '.cache', 'metafiles.json'), 'utf8')),
  join(ROOT, 'dist', 'sbom.cdx.json'),
);
const packed = await run({
  title: `Packing ${out}`,
  // Everything is bundled, so no dependency goes along; links in the README point to pages that are in the package.
  argv: [
    join('node_modules', '.bin', process.platform === 'win32' ? 'vsce.cmd' : 'vsce'),
    'package',
    '--no-dependencies',
    '--no-rewrite-relative-links',
    '--allow-missing-repository',
    // docs/versions.md: before 1.0.0 every version is a preview.
    ...(version.startsWith('0.') ? ['--pre-release'] : []),
    '--out',
    out,
  ],
  limitMinutes: 5,
  remedy: 'mend what is named above; if the program itself is missing, run npm ci',
});
if (packed) console.log(`\nInstall it with: code --install-extension ${out}`);
process.exitCode = packed ? 0 : 1;
