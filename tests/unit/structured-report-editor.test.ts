import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build, type BuildOptions } from 'esbuild';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ReportQuestion } from '../../shared/protocol/page-thread.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { madeReport } from '../../src/cli/structured.ts';
import { PageMaker } from '../../src/extension/page-maker.ts';
import { pageWorker } from '../../src/extension/page-worker.ts';
import { Program } from './command-line-program.ts';
import { pictureFile, syntaxes } from './picture-dicom-writer.ts';
import { filmText } from './plain-foot.ts';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';

/** What the command uses of the editor. */
const editor = vi.hoisted(() => {
  class Uri {
    readonly scheme: string;
    readonly path: string;
    readonly authority = '';
    constructor(scheme: string, path: string) {
      this.scheme = scheme;
      this.path = path;
    }
    static joinPath({ scheme, path }: Uri, ...parts: string[]): Uri {
      const steps = parts.reduce((all, step) => (step === '..' ? all.slice(0, -1) : [...all, step]), path.split('/'));
      return new Uri(scheme, steps.join('/'));
    }
    with({ path }: { readonly path: string }): Uri {
      return new Uri(this.scheme, path);
    }
    toString(): string {
      return `${this.scheme}:${this.path}`;
    }
  }
  const state = {
    active: null as unknown,
    told: [] as string[],
    asked: [] as string[][],
    chosen: [] as string[],
    written: new Map<string, Uint8Array>(),
    offered: '',
    isSaved: true,
  };
  const tell = (text: string): Promise<undefined> => {
    state.told.push(text);
    return Promise.resolve(undefined);
  };
  const vscode = {
    Uri,
    workspace: {
      workspaceFolders: [],
      fs: {
        writeFile: (uri: Uri, bytes: Uint8Array) => Promise.resolve(void state.written.set(uri.path, bytes)),
        rename: (from: Uri, to: Uri) => {
          state.written.set(to.path, state.written.get(from.path) ?? new Uint8Array());
          state.written.delete(from.path);
          return Promise.resolve();
        },
        delete: () => Promise.resolve(),
        stat: ({ path }: Uri) => {
          const there = state.written.get(path);
          return there ? Promise.resolve({ size: there.length }) : Promise.reject(new Error('not there'));
        },
        readFile: ({ path }: Uri) => Promise.resolve(state.written.get(path) ?? new Uint8Array()),
      },
    },
    window: {
      get activeTextEditor() {
        return state.active ?? undefined;
      },
      showInformationMessage: tell,
      showErrorMessage: tell,
      setStatusBarMessage: tell,
      showSaveDialog: ({ defaultUri }: { defaultUri?: Uri }) => {
        state.offered = defaultUri?.path ?? '';
        return Promise.resolve(state.isSaved ? new Uri('file', '/out/report.dcm') : undefined);
      },
      showQuickPick: (items: readonly { label: string }[]) => {
        state.asked.push(items.map(({ label }) => label));
        const wanted = state.chosen.shift();
        return Promise.resolve(items.find(({ label }) => label === wanted));
      },
    },
  };
  return { state, vscode, Uri };
});
vi.mock('vscode', () => editor.vscode);

const { StructuredReports } = await import('../../src/extension/structured-reports.ts');
const { state, Uri } = editor;

const text = `hoof 1\n\ncase "Clover"\n  animal horse mare\n\nvisit 2026-01-04\n${filmText({}, { header: 'film LF lateral "x.dcm"' })}\n\nvisit 2026-02-01\n${filmText({}, { header: 'film RF lateral "y.png"' })}\n`;
const grounds = { version: 1, text, settings: usualStudy, levels: [], scales: [], missing: [] };

const film = pictureFile(
  syntaxes.explicit,
  {
    width: 4,
    height: 4,
    more: [
      { tag: '00080016', vr: 'UI', value: '1.2.840.10008.5.1.4.1.1.1.1' },
      { tag: '00080018', vr: 'UI', value: '2.25.13' },
      { tag: '00100020', vr: 'LO', value: 'EXAMPLE-1' },
      { tag: '0020000d', vr: 'UI', value: '2.25.11' },
      { tag: '0020000e', vr: 'UI', value: '2.25.12' },
    ],
  },
  new Uint8Array(32),
);

const question = (more: Partial<ReportQuestion> = {}): ReportQuestion => ({
  grounds,
  caseName: 'clover.hoof',
  film: 0,
  header: null,
  names: false,
  on: '2026-02-02',
  ...more,
});

describe('the thread that makes pages', () => {
  let program: Program;
  beforeAll(async () => {
    program = await Program.build();
    const { outfile: _, ...options } = outputs.reports as BuildOptions;
    const { outputFiles } = await build({ ...options, write: false } as BuildOptions);
    writeFileSync(join(program.folder, 'structured-report.cjs'), outputFiles?.[0]?.contents ?? '');
  }, 60_000);
  afterAll(() => program.remove());

  it('lists the films and makes the report of one, as the command line does', async () => {
    const maker = new PageMaker(() => pageWorker(program.path));
    try {
      const listed = await maker.report(question({ film: null }));
      expect(listed).toEqual(await madeReport(question({ film: null })));
      expect(listed).toMatchObject({
        films: [{ title: 'Left fore, lateral, 2026-01-04', line: 6 }, { fileName: 'clover-rf-lateral-2026-02-01.dcm' }],
      });
      const made = await maker.report(question({ header: film }));
      const here = await madeReport(question({ header: film }));
      if (!('report' in made) || !('report' in here)) throw new Error('no report');
      expect(Buffer.from(made.report).equals(Buffer.from(here.report))).toBe(true);
      expect(await maker.report(question({ film: 7 }))).toEqual({
        problem: expect.stringContaining('not in the text'),
      });
    } finally {
      maker.end();
    }
  });
});

describe('Ungula: Structured report of this film…', () => {
  const document = { uri: new Uri('file', '/cases/clover.hoof'), languageId: 'hoof' };
  const at = (line: number, of: object = document): void => {
    state.active = { document: of, selection: { active: { line } } };
  };
  const reports = ({ found = true } = {}): InstanceType<typeof StructuredReports> =>
    new StructuredReports({
      server: { pageGrounds: () => Promise.resolve(grounds) },
      maker: { report: madeReport, end() {} },
      files: (_uri: unknown, _roots: unknown, use: (picture: unknown) => Promise<unknown>) =>
        found
          ? use({
              size: film.length,
              read: (start: number, length: number) => Promise.resolve(film.subarray(start, start + length)),
            }).then((bytes) => ({ found: bytes }))
          : Promise.resolve({ refused: 'not there' }),
      previewed: () => null,
    } as unknown as ConstructorParameters<typeof StructuredReports>[0]);

  beforeEach(() => {
    Object.assign(state, {
      told: [],
      asked: [],
      chosen: ['Without names'],
      written: new Map(),
      offered: '',
      isSaved: true,
    });
    at(8);
  });

  it('is of the film in which the cursor stands, beside the case, without names', async () => {
    await reports().write();
    expect(state.asked).toEqual([['Without names', 'With names']]);
    expect(state.offered).toBe('/cases/clover-lf-lateral-2026-01-04-measures.dcm');
    const written = Buffer.from(state.written.get('/out/report.dcm') ?? []);
    expect([written.includes('DICM'), written.includes('2.25.13'), written.includes('EXAMPLE-1')]).toEqual([
      true,
      true,
      false,
    ]);
    expect(state.told).toEqual(['Saved as report.dcm.']);
  });

  it('never goes over a film, though somebody has said yes to the editor; over a report of ours it does', async () => {
    state.written.set('/out/report.dcm', film);
    await reports().write();
    expect(state.written.get('/out/report.dcm')).toBe(film);
    expect(state.told).toEqual([
      'report.dcm is there already and is no structured report of this program; it was left as it is.',
    ]);
    state.written.delete('/out/report.dcm');
    for (const names of ['Without names', 'With names']) {
      state.chosen = [names];
      await reports().write();
    }
    expect(state.told.slice(1)).toEqual(['Saved as report.dcm.', 'Saved as report.dcm.']);
    expect(Buffer.from(state.written.get('/out/report.dcm') ?? []).includes('EXAMPLE-1')).toBe(true);
  });

  it('names where names are asked for', async () => {
    state.chosen = ['With names'];
    await reports().write();
    expect(Buffer.from(state.written.get('/out/report.dcm') ?? []).includes('EXAMPLE-1')).toBe(true);
  });

  it('asks for the film elsewhere, the newest first, and writes nothing where none is chosen', async () => {
    at(0);
    state.chosen = [];
    await reports().write();
    expect(state.asked).toEqual([['Right fore, lateral, 2026-02-01', 'Left fore, lateral, 2026-01-04']]);
    expect(state.written.size).toBe(0);
  });

  it('refers to no image where the film is not there, or the case lies nowhere', async () => {
    await reports({ found: false }).write();
    expect(Buffer.from(state.written.get('/out/report.dcm') ?? []).includes('2.25.13')).toBe(false);
    at(8, { uri: new Uri('untitled', 'Untitled-1'), languageId: 'hoof' });
    state.chosen = ['Without names'];
    await reports().write();
    expect(Buffer.from(state.written.get('/out/report.dcm') ?? []).includes('2.25.13')).toBe(false);
    expect(state.offered).toBe('');
  });

  it('says so without a case', async () => {
    state.active = null;
    await reports().write();
    expect(state.told).toEqual([expect.stringContaining('Open a case file')]);
    expect(state.written.size).toBe(0);
  });
});
