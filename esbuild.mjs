// One configuration for every bundle: the client and the language server (each for Node and for a browser), the preview page, the command line.
import { build, context } from 'esbuild';
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { asEsModules } from './scripts/as-es-modules.mjs';
import { leanLibraries } from './scripts/lean-libraries.mjs';
import { pdfBundle } from './scripts/pdf-bundle.mjs';
import { copyRasterParts } from './scripts/raster-parts.mjs';
import { writeNotices } from './scripts/third-party.mjs';

const watch = process.argv.includes('--watch');
const common = {
  bundle: true,
  minify: !watch,
  sourcemap: watch ? 'inline' : false,
  logLevel: 'warning',
  legalComments: 'none',
  logOverride: { 'import-is-undefined': 'error' },
};
const node = { ...common, platform: 'node', target: 'node20', format: 'cjs' };
/** What the parser needs and Node 20 lacks, before anything else; the editor's own Node has it. */
const forNode20 = { inject: ['src/cli/node-20.ts'] };

const browser = { ...common, platform: 'browser', target: 'es2022', format: 'iife' };

/** Under Node server and client hardly ever read a header themselves: what that takes is loaded where it is wanted. */
const headersApart = {
  name: 'headers-apart',
  setup({ onResolve }) {
    onResolve({ filter: /\/stored-scale\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './picture-header.cjs', external: true } : null,
    );
  },
};

/** The decoders of DICOM and TIFF are heavy and seldom needed: the command line has them in a thread, and itself only in its sources. */
const decodersApart = {
  name: 'decoders-apart',
  setup({ onResolve }) {
    onResolve({ filter: /\/shown-picture\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './picture-decoder.worker.js', external: true } : null,
    );
  },
};

/** What writes a structured report is heavy and seldom needed too. */
const reportsApart = {
  name: 'reports-apart',
  setup({ onResolve }) {
    onResolve({ filter: /\/report-bytes\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './structured-report.cjs', external: true } : null,
    );
  },
};

/** What writes PDF is as large as all the rest of the command line, and seldom needed. */
const pdfApart = {
  name: 'pdf-apart',
  setup({ onResolve }) {
    onResolve({ filter: /\/page-pdf\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './page-pdf.mjs', external: true } : null,
    );
  },
};

/** What writes Parquet is wanted by few, and only where a series is exported. */
const parquetApart = {
  name: 'parquet-apart',
  setup({ onResolve }) {
    onResolve({ filter: /\/parquet-table\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './series-parquet.mjs', external: true } : null,
    );
  },
};

/** What runs on Node: the server, and the command line. */
const program = {
  ...common,
  ...forNode20,
  platform: 'node',
  target: 'node20',
  format: 'esm',
  plugins: [asEsModules, decodersApart, headersApart, reportsApart, pdfApart, parquetApart, leanLibraries],
  // A library in them asks for Node's own modules in the older way.
  banner: {
    js: "#!/usr/bin/env node\nimport { createRequire } from 'node:module'; const require = createRequire(import.meta.url);",
  },
};

export const outputs = {
  client: {
    ...node,
    entryPoints: ['src/extension/main.ts'],
    outfile: 'dist/extension.cjs',
    external: ['vscode'],
    plugins: [headersApart, asEsModules],
  },
  server: {
    ...program,
    entryPoints: ['server/node.ts'],
    outfile: 'dist/server.js',
  },
  webClient: {
    ...browser,
    // What the web extension host loads.
    format: 'cjs',
    entryPoints: ['src/extension/web.ts'],
    outfile: 'dist/extension.web.js',
    external: ['vscode'],
    plugins: [asEsModules, leanLibraries],
  },
  worker: {
    ...browser,
    // A worker's script is UTF-8 whatever it is served as (HTML, 10.2.4), so no letter needs to be written as a number.
    charset: 'utf8',
    entryPoints: ['server/worker.ts'],
    outfile: 'dist/server.worker.js',
    plugins: [asEsModules, leanLibraries],
  },
  /** Beside the server, which reads the headers of pictures in it. */
  headerThread: {
    ...node,
    entryPoints: ['disk/header.thread.ts'],
    outfile: 'dist/picture-header.thread.cjs',
    plugins: [headersApart],
  },
  headers: {
    ...node,
    entryPoints: ['shared/picture/stored-scale.ts'],
    outfile: 'dist/picture-header.cjs',
    plugins: [leanLibraries],
  },
  reports: {
    ...node,
    entryPoints: ['src/cli/report-bytes.ts'],
    outfile: 'dist/structured-report.cjs',
    plugins: [leanLibraries],
  },
  decoderThread: {
    ...node,
    entryPoints: ['src/extension/decoder.thread.ts'],
    outfile: 'dist/picture-decoder.thread.cjs',
  },
  /** The decoders, for a browser; under Node the thread above runs the same file. */
  decoderWorker: {
    ...browser,
    entryPoints: ['src/extension/decoder.worker.ts'],
    outfile: 'dist/picture-decoder.worker.js',
    // Named by a decoder made for Node too, and not used here.
    external: ['fs', 'path'],
    alias: { zlib: './shared/picture/absent-zlib.ts' },
  },
  /** In parts: what placing and the course take is loaded when they begin. */
  page: {
    ...browser,
    format: 'esm',
    splitting: true,
    entryPoints: { preview: 'src/preview/main.ts' },
    outdir: 'dist',
    chunkNames: 'preview-[name]-[hash]',
  },
  /** Beside the page, which reads it as text: an editor lets a page load a worker no other way. */
  proposals: {
    ...browser,
    charset: 'utf8',
    entryPoints: ['src/preview/proposing/proposals.worker.ts'],
    outfile: 'dist/proposals.worker.js',
  },
  style: { ...common, entryPoints: ['src/preview/preview.css'], outfile: 'dist/preview.css' },
  /** Beside the command line. Its libraries are taken as for a browser, where they are smaller; of Node it has brotli alone. */
  pdf: {
    ...browser,
    format: 'esm',
    entryPoints: ['src/pdf/page-pdf.ts'],
    outfile: 'dist/page-pdf.mjs',
    plugins: [pdfBundle],
  },
  /** Beside the command line too. */
  parquet: {
    ...common,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    entryPoints: ['src/cli/series/parquet-table.ts'],
    outfile: 'dist/series-parquet.mjs',
  },
  commandLine: {
    ...program,
    entryPoints: ['src/cli/main.ts'],
    outfile: 'dist/cli.js',
  },
};

const { server, commandLine, ...others } = outputs;

/** As they ship: server and command line are mostly the same code, which lies in pieces that both load. */
export const shipped = {
  ...others,
  programs: {
    ...program,
    splitting: true,
    entryPoints: { server: server.entryPoints[0], cli: commandLine.entryPoints[0] },
    outdir: 'dist',
    chunkNames: 'program-[hash]',
  },
};

if (process.argv[1] === import.meta.filename) {
  rmSync('dist', { recursive: true, force: true });
  copyRasterParts();
  const all = Object.values(shipped);
  if (watch) for (const output of all) await (await context(output)).watch();
  else {
    const built = await Promise.all(all.map((output) => build({ ...output, metafile: true })));
    const metafiles = built.map(({ metafile }) => metafile);
    writeNotices(metafiles, 'dist/THIRD-PARTY.txt');
    // The bill of materials is made of this when the package is.
    mkdirSync('.cache', { recursive: true });
    writeFileSync('.cache/metafiles.json', JSON.stringify(metafiles));
  }
}
