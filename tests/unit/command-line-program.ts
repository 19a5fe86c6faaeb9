import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';

export interface Ended {
  readonly status: number | null;
  readonly signal: string | null;
  readonly out: string;
  /** Line by line. */
  readonly err: readonly string[];
}

/** The superuser may read and write everything; what somebody else may not is tried as the user `nobody`. */
export const asRoot = process.getuid?.() === 0;
export const nobody = 65534;
const asNobody = `process.setgroups([]); process.setegid(${nobody}); process.seteuid(${nobody});`;

/** The command line as it ships, in a folder of its own that everybody may enter. */
export class Program {
  readonly folder = mkdtempSync(join(tmpdir(), 'ungula-program-'));
  readonly path = join(this.folder, 'cli.mjs');

  /** `pdf`, `parquet`: with what writes it beside. */
  static async build({ pdf = false, parquet = false } = {}): Promise<Program> {
    const program = new Program();
    const { outfile: _, ...cli } = outputs.commandLine as BuildOptions;
    const bundle = await build({ ...cli, write: false } as BuildOptions);
    writeFileSync(program.path, bundle.outputFiles?.[0]?.text ?? '');
    if (pdf) await build({ ...(outputs.pdf as BuildOptions), outfile: join(program.folder, 'page-pdf.mjs') });
    if (parquet)
      await build({ ...(outputs.parquet as BuildOptions), outfile: join(program.folder, 'series-parquet.mjs') });
    chmodSync(program.folder, 0o755);
    return program;
  }

  /** The arguments that run it under Node, with a few lines of code before it. */
  argv(args: readonly string[], first = ''): string[] {
    return ['--import', `data:text/javascript,${encodeURIComponent(first)}`, this.path, ...args];
  }

  /** By somebody who is not the superuser. */
  runAsNobody(...args: string[]): Ended {
    return this.#ended(spawnSync(process.execPath, this.argv(args, asRoot ? asNobody : ''), { encoding: 'utf8' }));
  }

  /** In a shell line, where `ungula` stands for the program. */
  shell(line: string): Ended {
    const env = { ...process.env, NODE: process.execPath, PROGRAM: this.path };
    return this.#ended(
      spawnSync('bash', ['-c', `ungula() { "$NODE" "$PROGRAM" "$@"; }; ${line}`], {
        encoding: 'utf8',
        env,
        cwd: this.folder,
        timeout: 600_000,
      }),
    );
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }

  #ended({ status, signal, stdout, stderr }: ReturnType<typeof spawnSync>): Ended {
    return { status, signal, out: String(stdout), err: String(stderr).split('\n').filter(Boolean) };
  }
}
