import { beforeEach, describe, expect, it, vi } from 'vitest';
import { madePage, type PageQuestion } from '../../shared/report/pages/page-maker.ts';
import type { MadePdf, PdfQuestion } from '../../shared/report/pages/page-as-pdf.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { planned } from './handed-cases.ts';

/** What the pane uses of the editor, so that what it does can be seen without one. */
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
      const steps = [...path.split('/'), ...parts].reduce<string[]>(
        (all, step) => (step === '..' ? all.slice(0, -1) : [...all, step]),
        [],
      );
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
    changed: (told: { document: unknown }): void => void told,
    panels: [] as { webview: { html: string }; options: unknown; title: string }[],
    written: new Map<string, string>(),
    opened: [] as string[],
    copied: '',
    told: [] as string[],
    chosen: 'owner',
    active: null as unknown,
    saveAt: null as Uri | null,
    kinds: [] as string[],
    printed: [] as PdfQuestion[],
    pdf: {} as MadePdf | { readonly problem: string },
    env: { uiKind: 1, remoteName: undefined as string | undefined },
  };
  const tell = (text: string): Promise<undefined> => {
    state.told.push(text);
    return Promise.resolve(undefined);
  };
  const vscode = {
    Uri,
    ViewColumn: { Beside: -2 },
    workspace: {
      workspaceFolders: [],
      onDidChangeTextDocument: (hear: typeof state.changed) => {
        state.changed = hear;
        return { dispose() {} };
      },
      openTextDocument: (uri: Uri) => Promise.resolve({ uri, languageId: 'hoof' }),
      fs: {
        createDirectory: () => Promise.resolve(),
        writeFile: (uri: Uri, bytes: Uint8Array) => {
          state.written.set(uri.path, new TextDecoder().decode(bytes));
          return Promise.resolve();
        },
        rename: (from: Uri, to: Uri) => {
          state.written.set(to.path, state.written.get(from.path) ?? '');
          state.written.delete(from.path);
          return Promise.resolve();
        },
        delete: () => Promise.resolve(),
      },
    },
    window: {
      get activeTextEditor() {
        return state.active === null ? undefined : { document: state.active };
      },
      showInformationMessage: tell,
      showErrorMessage: tell,
      showWarningMessage: tell,
      setStatusBarMessage: tell,
      showSaveDialog: ({ filters }: { filters: Record<string, string[]> }) => {
        state.kinds = Object.values(filters).flat();
        return Promise.resolve(state.saveAt);
      },
      showQuickPick: (items: readonly { reader: string }[]) =>
        Promise.resolve(items.find(({ reader }) => reader === state.chosen)),
      createWebviewPanel: (_kind: string, title: string, column: unknown, options: unknown) => {
        // In the preview's column, with the focus, so that its buttons show.
        expect(column).toEqual({ viewColumn: 2, preserveFocus: false });
        const panel = { webview: { html: '' }, options, title, onDidDispose() {}, reveal() {}, dispose() {} };
        state.panels.push(panel);
        return panel;
      },
    },
    UIKind: { Desktop: 1, Web: 2 },
    env: {
      get uiKind() {
        return state.env.uiKind;
      },
      get remoteName() {
        return state.env.remoteName;
      },
      openExternal: (uri: Uri) => {
        state.opened.push(uri.path);
        return Promise.resolve(true);
      },
      clipboard: {
        writeText: (text: string) => {
          state.copied = text;
          return Promise.resolve();
        },
      },
    },
  };
  return { state, vscode, Uri };
});
vi.mock('vscode', () => editor.vscode);

const { HandedPages } = await import('../../src/extension/page-panel.ts');
const { state, Uri } = editor;

type Parts = ConstructorParameters<typeof HandedPages>[0];

/** A case whose text was never saved. */
const unsaved = { uri: new Uri('untitled', 'Clover.hoof'), languageId: 'hoof' };
let text = planned();

function handedPages({ document = null as unknown, makesPdf = true } = {}): InstanceType<typeof HandedPages> {
  const parts = {
    server: {
      pageGrounds: () =>
        Promise.resolve({ version: 1, text, settings: usualStudy, levels: [], scales: [], missing: [] }),
    },
    maker: {
      makesPdf,
      make: (question: PageQuestion) => Promise.resolve(madePage({ ...question, date: '2026-05-28' })),
      pdf: (question: PdfQuestion) => {
        state.printed.push(question);
        return Promise.resolve(state.pdf);
      },
      end() {},
    },
    files: () => Promise.resolve({ refused: 'not there' }),
    decoder: { showable: () => Promise.reject(new Error('asked for a picture')), dispose() {} },
    folder: new Uri('file', '/storage/pages'),
    previewed: () => document,
    besideText: () => 2,
  };
  return new HandedPages(parts as unknown as Parts);
}

beforeEach(() => {
  Object.assign(state, {
    panels: [],
    written: new Map(),
    opened: [],
    copied: '',
    told: [],
    chosen: 'owner',
    active: unsaved,
    saveAt: null,
    printed: [],
    pdf: { bytes: new TextEncoder().encode('%PDF of a page'), notShown: [] },
    env: { uiKind: 1, remoteName: undefined },
  });
  text = planned();
});

describe('the pane of a page', () => {
  it('shows the page of an unsaved text, runs nothing and may load nothing', async () => {
    await handedPages().open();
    const [panel] = state.panels;
    expect(panel?.webview.html).toContain('For the owner · 28 May 2026');
    expect(panel?.options).toEqual({ enableScripts: false, enableCommandUris: false, localResourceRoots: [] });
  });

  it('says why a picture of an unsaved case is not on it', async () => {
    state.chosen = 'vet';
    await handedPages().open();
    expect(state.panels[0]?.webview.html).toContain('Without its picture.');
  });

  it('is of the case that the preview shows, where the command is given there', async () => {
    state.active = null;
    await handedPages({ document: unsaved }).open();
    expect(state.panels).toHaveLength(1);
  });

  it('follows the text', async () => {
    vi.useFakeTimers();
    try {
      await handedPages().open();
      text = planned().replace('Clover', 'Sainfoin');
      state.changed({ document: unsaved });
      await vi.advanceTimersByTimeAsync(1000);
      expect(state.panels[0]?.webview.html).toContain('Sainfoin');
    } finally {
      vi.useRealTimers();
    }
  });

  it('saves, prints and copies what it shows', async () => {
    const pages = handedPages();
    await pages.open();
    const html = state.panels[0]?.webview.html;
    state.saveAt = new Uri('file', '/home/x/clover.html');
    await pages.save();
    expect([...state.written]).toEqual([['/home/x/clover.html', html]]);
    await pages.print();
    expect(state.opened).toEqual(['/storage/pages/Clover-owner.html']);
    expect(state.written.get('/storage/pages/Clover-owner.html')).toBe(html);
    await pages.copy();
    expect(state.copied).toContain('How it stands now');
    expect(state.copied).not.toContain('<');
  });

  it('saves as PDF where the name ends so, and says what that cannot show', async () => {
    const pages = handedPages();
    await pages.open();
    state.saveAt = new Uri('file', '/home/x/clover.pdf');
    state.pdf = { bytes: new TextEncoder().encode('%PDF of a page'), notShown: ['No letters for U+99AC.'] };
    await pages.save();
    expect([...state.written]).toEqual([['/home/x/clover.pdf', '%PDF of a page']]);
    expect(state.printed).toEqual([
      { html: state.panels[0]?.webview.html, date: expect.stringMatching(/^\d{4}-\d\d-\d\d$/), paper: 'a4' },
    ]);
    expect(state.told).toEqual([expect.stringContaining('clover.pdf'), 'No letters for U+99AC.']);
    state.pdf = { problem: 'The part that makes pages did not answer.' };
    state.saveAt = new Uri('file', '/home/x/other.pdf');
    await pages.save();
    expect(state.written.size).toBe(1);
    expect(state.told.at(-1)).toBe('The part that makes pages did not answer.');
  });

  it.each([
    ['in a browser', { uiKind: 2 }],
    ['on another machine', { remoteName: 'ssh-remote' }],
  ])('prints nothing where the editor runs %s, and says what to do', async (_where, env) => {
    Object.assign(state.env, env);
    const pages = handedPages();
    await pages.open();
    await pages.print();
    expect([state.opened, state.written.size]).toEqual([[], 0]);
    expect(state.told).toEqual([expect.stringContaining('Save the page, and print that from your browser')]);
  });

  it('offers to save as PDF only where PDF can be made', async () => {
    for (const [makesPdf, kinds] of [
      [true, ['pdf', 'html']],
      [false, ['html']],
    ] as const) {
      const pages = handedPages({ makesPdf });
      await pages.open();
      await pages.save();
      expect(state.kinds).toEqual(kinds);
    }
  });

  it('says what is lacking where there is no case', async () => {
    state.active = null;
    const pages = handedPages();
    await pages.open();
    await pages.save();
    await pages.copy();
    expect(state.panels).toEqual([]);
    expect(state.written.size).toBe(0);
    expect(state.told).toEqual([expect.stringContaining('Open a case file')]);
  });
});
