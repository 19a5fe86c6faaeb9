import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { manifestWithCodes } from '../../scripts/severity-setting.ts';
import { codes } from '../../shared/findings/catalogue.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { readLevels } from '../../shared/findings/engine/severity-levels.ts';
import { spreadRanges, usualSpread } from '../../shared/measures/film-input.ts';
import { readSettings } from '../../server/serving/settings.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { changeRanges, usualChange } from '../../shared/trim/change-settings.ts';
import { trimRanges } from '../../shared/trim/trim-settings.ts';
import { landmarksOf } from '../../shared/notation/landmarks.ts';
import { blocks, statements } from '../../shared/notation/vocabulary.ts';
import { previewHtml } from '../../src/extension/preview-html.ts';
import { snippetsFirst, wordsWithSnippet } from '../../src/extension/snippets-first.ts';

const root = join(import.meta.dirname, '..', '..');
const read = (name: string): string => readFileSync(join(root, name), 'utf8');
const manifest = JSON.parse(read('package.json'));
const { contributes } = manifest;
const english: Record<string, string> = JSON.parse(read('package.nls.json'));
/** What stands in the manifest as `%key%`. */
const said = (text: unknown): string => String(text).replace(/^%(.+)%$/, (whole, key: string) => english[key] ?? whole);
const sources = readdirSync(join(root, 'src', 'extension'))
  .map((name) => read(join('src', 'extension', name)))
  .join('\n');

function paths(value: unknown): string[] {
  if (typeof value === 'string') return value.startsWith('./') ? [value] : [];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(paths) : [];
}

describe('the manifest', () => {
  it('names no file that is not there', () => {
    const named = [manifest.icon, ...paths(contributes), ...manifest.files.filter((name: string) => name !== 'dist')];
    expect(named.filter((name) => !existsSync(join(root, name)))).toEqual([]);
  });

  it('wakes on a case file: the language has a configuration, without which nothing would wake', () => {
    expect(contributes.languages).toHaveLength(1);
    expect(contributes.languages[0]).toMatchObject({ id: 'hoof', extensions: ['.hoof'] });
    expect(contributes.languages[0].configuration).toMatch(/json$/);
    expect(manifest.activationEvents).toEqual(['onWebviewPanel:ungula.preview']);
    expect(sources).toContain(`'ungula.preview'`);
  });

  it('describes every setting in a whole sentence', () => {
    for (const [name, setting] of Object.entries<Record<string, unknown>>(contributes.configuration.properties)) {
      expect(name).toMatch(/^ungula\./);
      expect([name, said(setting['markdownDescription'] ?? setting['description'])]).toEqual([
        name,
        expect.stringMatching(/^[A-Z].{30,}\.$/s),
      ]);
    }
  });

  it('has the defaults that the numbers are counted with where nothing is set', () => {
    const { properties } = contributes.configuration;
    expect(properties['ungula.placing.spreadMm'].default).toBe(usualSpread.mm);
    expect(properties['ungula.placing.spreadPx'].default).toBe(usualSpread.px);
    expect(properties['ungula.placing.spreadMm'].maximum).toBe(spreadRanges.mm.high);
    expect(properties['ungula.placing.spreadPx'].maximum).toBe(spreadRanges.px.high);
    for (const [name, { high }] of Object.entries(trimRanges))
      expect(properties[`ungula.trim.${name}`].maximum, name).toBe(high);
    for (const [name, { low, high }] of Object.entries(changeRanges)) {
      const setting = properties[`ungula.change.${name}`];
      expect([setting.minimum ?? setting.exclusiveMinimum, setting.maximum], name).toEqual([low, high]);
      expect(setting.default, name).toBe(usualChange[name as keyof typeof usualChange]);
    }
  });

  it('counts a setting that is out of its range as not set', () => {
    const absurd = [-1, NaN, Infinity, 1e308, 501];
    for (const value of absurd) {
      const trim = Object.fromEntries(Object.keys(trimRanges).map((name) => [name, value]));
      const change = Object.fromEntries(Object.keys(changeRanges).map((name) => [name, value]));
      const section = { placing: { spreadMm: value, spreadPx: value }, trim, change };
      const read = readSettings(section, usualStudy);
      expect([read.spread, read.trim, read.change]).toEqual([usualStudy.spread, usualStudy.trim, usualStudy.change]);
      // The very same object, as what is remembered is remembered by it.
      expect(read.change).toBe(usualStudy.change);
    }
    expect(readSettings({ placing: { spreadPx: 500 } }, usualStudy).spread).toEqual({ mm: usualSpread.mm, px: 500 });
  });

  it('knows every code whose severity may be set (npm run docs writes them)', () => {
    const text = read('package.json');
    expect(manifestWithCodes(text)).toBe(text);
    const setting = contributes.configuration.properties['ungula.severity'];
    const names: string[] = setting.propertyNames.enum;
    expect(names).toEqual(expect.arrayContaining(codes.map(({ code }) => code)));
    expect(names.filter((name) => name.endsWith('/*')).length).toBeGreaterThan(10);
    for (const name of names) expect(readLevels([[name, 'warning']]).unknown).toEqual([]);
    for (const level of setting.additionalProperties.enum)
      expect(readLevels([['tape/disagrees', level]])).toMatchObject({ unknown: [], kept: [] });
  });

  it('offers the commands that are registered, under one category', () => {
    const offered = contributes.commands.map(({ command }: { command: string }) => command).sort();
    const registered = [...sources.matchAll(/registerCommand\('([^']+)'/g)].map(([, name]) => name).sort();
    expect(offered).toEqual(registered);
    expect(new Set(contributes.commands.map(({ category }: { category: string }) => category))).toEqual(
      new Set(['Ungula']),
    );
    const used = [...Object.values<{ command: string }[]>(contributes.menus).flat(), ...contributes.keybindings];
    for (const { command } of used) expect(offered).toContain(command);
  });

  it('shows its buttons at case files, the preview and a page only', () => {
    const [atCase, atPreview, atPage] = [
      'editorLangId == hoof',
      "activeWebviewPanelId == 'ungula.preview'",
      "activeWebviewPanelId == 'ungula.page'",
    ];
    const buttons: { command: string; when: string }[] = contributes.menus['editor/title'];
    expect(buttons.map(({ command, when }) => [command, when])).toEqual([
      ['ungula.openPreview', atCase],
      ['ungula.handOver', `${atCase} || ${atPreview}`],
      ['ungula.savePage', atPage],
      ['ungula.printPage', atPage],
      ['ungula.copyPage', atPage],
    ]);
    for (const { when } of contributes.keybindings) expect(when).toBe(atCase);
    expect(sources).toContain(`'ungula.page'`);
  });

  it('draws every icon itself', () => {
    for (const name of readdirSync(join(root, 'icons')))
      expect(read(join('icons', name))).not.toMatch(/<image|href|<script|<text/);
  });
});

describe('the page of the marketplace', () => {
  // code.visualstudio.com/api/references/extension-manifest, read in November 2026.
  const categories =
    'Programming Languages, Snippets, Linters, Themes, Debuggers, Formatters, Keymaps, SCM Providers, Other, Extension Packs, Language Packs, Data Science, Machine Learning, Visualization, Notebooks, Education, Testing'.split(
      ', ',
    );

  it('finds the extension under categories that there are, and by single words', () => {
    expect(manifest.categories.length).toBeGreaterThan(0);
    expect(manifest.categories.filter((one: string) => !categories.includes(one))).toEqual([]);
    // The packaging program refuses more than 30.
    expect(manifest.keywords.length).toBeLessThanOrEqual(30);
    expect(new Set(manifest.keywords).size).toBe(manifest.keywords.length);
    for (const word of manifest.keywords) expect(word).toMatch(/^[a-z]+$/);
  });

  it('has a head of the icon’s own paper', () => {
    const { width, data } = PNG.sync.read(readFileSync(join(root, manifest.icon)));
    const inside = (20 * width + width / 2) * 4;
    const paper = [...data.subarray(inside, inside + 3)].map((one) => one.toString(16).padStart(2, '0')).join('');
    expect(manifest.galleryBanner).toEqual({ color: `#${paper}`, theme: 'light' });
    expect(width).toBeGreaterThanOrEqual(128);
  });

  it('costs nothing, and is a preview until 1.0.0, in the package too', () => {
    expect(manifest.pricing).toBe('Free');
    expect(manifest.preview === true).toBe(manifest.version.startsWith('0.'));
    expect(read('scripts/package.mjs')).toContain(`version.startsWith('0.') ? ['--pre-release'] : []`);
  });

  it('names no address, as there is none: no repository, no home, no badges, no questions', () => {
    for (const key of ['repository', 'homepage', 'bugs', 'badges', 'sponsor']) expect(manifest).not.toHaveProperty(key);
    expect(manifest.qna).toBe(false);
    expect(read('README.md')).not.toMatch(/\]\(https?:/);
  });
});

describe('the snippets', () => {
  const snippets = JSON.parse(read('snippets/hoof.json')) as Record<
    string,
    { prefix: string; body: string[]; description: string }
  >;

  /** As somebody would fill it in: each default taken, each open place given a point, each choice its first. */
  function filled(prefix: string): string {
    const body = Object.values(snippets).find((one) => one.prefix === prefix)?.body ?? [];
    return body
      .join('\n')
      .replaceAll('${CURRENT_YEAR}', '2026')
      .replaceAll('${CURRENT_MONTH}', '03')
      .replaceAll('${CURRENT_DATE}', '04')
      .replace(/\$0/g, '')
      .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1')
      .replace(/\$\{\d+:([^}]*)\}/g, '$1')
      .replace(/\$\{?(\d+)\}?/g, (_all, place: string) => `${100 + Number(place) * 70}, ${200 + Number(place) * 50}`);
  }
  const broken = (text: string): string[] =>
    inspect(text)
      .findings.filter(({ code }) => /^(notation|record)\//.test(code))
      .map(({ code, message }) => `${code}: ${message}`);
  const visit = `hoof 1\n\ncase "Example"\n  animal horse mare\n\nvisit 2026-03-04\n`;

  it('give lines that the notation reads', () => {
    expect(broken(filled('hoof'))).toEqual([]);
    expect(broken(`hoof 1\ncase "Example"\n${filled('visit')}`)).toEqual([]);
    // Every other one stands in a visit.
    const inVisit = Object.values(snippets).flatMap(({ prefix }) => (['hoof', 'visit'].includes(prefix) ? [] : prefix));
    expect(inVisit).toContain('vet seen');
    for (const prefix of inVisit) expect([prefix, broken(visit + filled(prefix))]).toEqual([prefix, []]);
  });

  it('place every lateral landmark in the order in which a reader works', () => {
    const film = snippets['A lateral film with its landmarks']?.body.join('\n') ?? '';
    const places = [...film.matchAll(/^ {2}(?:# )?([\w.]+)\s+@/gm)].map(([, name]) => name);
    expect(places).toEqual(landmarksOf('lateral').map(({ word }) => word));
  });

  it('stand before the bare words that begin them', () => {
    const prefixes = Object.values(snippets).map(({ prefix }) => prefix);
    const words: readonly string[] = [...blocks, ...statements].map(({ word }) => word);
    expect([...wordsWithSnippet].sort()).toEqual(prefixes.filter((one) => words.includes(one)).sort());
    const offered = ['hoof', 'case', 'visit'].map((label, at) => ({ label, sortText: `000${at}` }));
    const snippet = { label: 'hoof', sortText: 'z-hoof' };
    const inOrder = [...snippetsFirst(offered), snippet].sort((a, b) => (a.sortText < b.sortText ? -1 : 1));
    expect(inOrder.map((one) => (one === snippet ? 'the whole case' : one.label))).toEqual([
      'case',
      'the whole case',
      'hoof',
      'visit',
    ]);
  });

  it('say what each is for', () => {
    for (const { description } of Object.values(snippets)) expect(description).toMatch(/^[A-Z].*\.$/);
  });
});

describe('the page of the preview', () => {
  const html = previewHtml({
    script: 'https://host/preview.js?a=1&b="',
    style: 'https://host/preview.css',
    cspSource: 'https://host',
    nonce: 'abc',
  });

  it('may load nothing but its script, its stylesheet, a worker of its own, pictures of the folder and those it makes itself', () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1]?.split('; ');
    expect(policy).toEqual([
      `default-src 'none'`,
      `script-src 'nonce-abc'`,
      'style-src https://host',
      'img-src https://host blob:',
      'connect-src https://host',
      'worker-src blob:',
      `base-uri 'none'`,
      `form-action 'none'`,
    ]);
  });

  it('has nothing inline', () => {
    expect(html).not.toMatch(/<style|style=|\son\w+=|<script[^>]*>[^<]/);
    expect(html).toContain(
      '<script type="module" nonce="abc" src="https://host/preview.js?a=1&amp;b=&quot;"></script>',
    );
  });
});
