import { build } from 'esbuild';
import { resolve } from 'node:path';
import { Script } from 'node:vm';
import type { Inspection, inspect } from '../../shared/findings/inspect.ts';
import type { filmSheets } from '../../shared/views/film-sheet.ts';

/** The pipeline with modules of its own: what one instance remembers, whatever way it does, another knows nothing of. */
export interface Pipeline {
  readonly inspect: typeof inspect;
  readonly filmSheets: typeof filmSheets;
}

const entry = `
export { inspect } from './shared/findings/inspect.ts';
export { filmSheets } from './shared/views/film-sheet.ts';
`;

/** Makes instances of the pipeline from what stands in the checkout now. */
export async function pipelines(): Promise<() => Pipeline> {
  const { outputFiles } = await build({
    stdin: { contents: entry, resolveDir: resolve(import.meta.dirname, '..', '..'), loader: 'ts' },
    bundle: true,
    platform: 'node',
    target: 'node24',
    format: 'iife',
    globalName: 'pipeline',
    write: false,
    logLevel: 'silent',
  });
  const [file] = outputFiles;
  if (!file) throw new Error('esbuild made no file of the pipeline');
  const script = new Script(`(() => { ${file.text}\nreturn pipeline; })()`, { filename: 'pipeline.js' });
  return () => script.runInThisContext() as Pipeline;
}

/** What a person is shown of an inspection, as plain data. */
export function shownBy({ filmSheets }: Pipeline, inspection: Inspection): unknown {
  return filmSheets(inspection);
}
