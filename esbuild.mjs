// One configuration for every bundle: the desktop client, the language server, the preview page, the command line.
import { build, context } from 'esbuild';
import { rmSync } from 'node:fs';

const watch = process.argv.includes('--watch');
const common = {
  bundle: true,
  minify: !watch,
  sourcemap: watch ? 'inline' : false,
  logLevel: 'warning',
  legalComments: 'none',
};
const node = { ...common, platform: 'node', target: 'node20', format: 'cjs' };

const outputs = [
  { ...node, entryPoints: ['src/extension/main.ts'], outfile: 'dist/extension.cjs', external: ['vscode'] },
  { ...node, entryPoints: ['server/node.ts'], outfile: 'dist/server.cjs' },
  {
    ...common,
    platform: 'browser',
    target: 'es2022',
    format: 'iife',
    entryPoints: ['src/preview/main.ts'],
    outfile: 'dist/preview.js',
  },
  { ...common, entryPoints: ['src/preview/preview.css'], outfile: 'dist/preview.css' },
  {
    ...common,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    entryPoints: ['src/cli/main.ts'],
    outfile: 'dist/cli.js',
    banner: { js: '#!/usr/bin/env node' },
  },
];

rmSync('dist', { recursive: true, force: true });
if (watch) for (const output of outputs) await (await context(output)).watch();
else await Promise.all(outputs.map((output) => build(output)));
