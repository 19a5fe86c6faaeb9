import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { unzipSync } from 'fflate';
import { Failure } from './failure.ts';
import type { Host } from './setup.ts';
import { ROOT, scratchFolder, type UnderTest } from './under-test.ts';

/** What `npm run package` writes. */
export function packageFile(): string {
  const { name, version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as Record<string, string>;
  return join(ROOT, 'out', `${name}-${version}.vsix`);
}

/** Packs the built checkout, and what is tried from here on is that package, unpacked, and no file of the checkout. */
export function packed(subject: UnderTest): UnderTest {
  const packing = spawnSync(process.execPath, [join(ROOT, 'scripts', 'package.mjs')], { cwd: ROOT, encoding: 'utf8' });
  if (packing.status !== 0)
    throw new Failure(`the package was not made:\n${packing.stdout}${packing.stderr}`, 'run npm run package');
  const vsix = packageFile();
  const folder = scratchFolder('package');
  for (const [path, bytes] of Object.entries(unzipSync(readFileSync(vsix)))) {
    const file = join(folder, path);
    mkdirSync(dirname(file), { recursive: true });
    if (!path.endsWith('/')) writeFileSync(file, bytes);
  }
  const extension = join(folder, 'extension');
  return { ...subject, vsix, extension, cli: join(extension, 'dist', 'cli.js') };
}

/** By the editor itself, as *Extensions: Install from VSIX…* does. */
export function installPackage({ node, entry }: Host, vsix: string, extensionsFolder: string): void {
  const own = scratchFolder('install');
  const config = join(own, 'config.yaml');
  writeFileSync(config, '{}\n');
  const argv = [entry, '--config', config, '--extensions-dir', extensionsFolder, '--user-data-dir', join(own, 'user')];
  const installing = spawnSync(node, [...argv, '--install-extension', vsix, '--force'], {
    encoding: 'utf8',
    env: { ...process.env, EXTENSIONS_GALLERY: '{}', XDG_CONFIG_HOME: own, XDG_DATA_HOME: own, XDG_CACHE_HOME: own },
    timeout: 60_000,
  });
  if (installing.status !== 0)
    throw new Failure(
      `the editor did not install ${vsix}:\n${installing.stdout}${installing.stderr}`,
      'run npm run package, and see what stands above',
    );
}
