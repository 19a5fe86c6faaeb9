import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = resolve(import.meta.dirname, '..', '..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const { files, scripts } = JSON.parse(read('package.json')) as { files: string[]; scripts: Record<string, string> };

const below = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => `${folder}/${name}`);
const pages = [
  ...readdirSync(root).filter((name) => name.endsWith('.md')),
  ...below('docs'),
  ...below('.github'),
  'tests/README.md',
].sort();

/** What is no code. */
const prose = (text: string): string =>
  text
    .replace(/^```[\s\S]*?^```$/gm, '')
    .replace(/^(?: {4}|\t).*$/gm, (line) => (/^ +(?:- |\d+\. )/.test(line) || /\]\(/.test(line) ? line : ''))
    .replace(/`[^`\n]*`/g, '``');

interface PageLink {
  readonly to: string;
  readonly anchor: string | null;
}

function linksOf(text: string): PageLink[] {
  return [...prose(text).matchAll(/\]\(([^)\s]+)\)/g)].flatMap(([, target = '']) => {
    if (/^[a-z]+:/.test(target)) return [];
    const [to = '', anchor = null] = target.split('#');
    return [{ to, anchor }];
  });
}

/** The anchors that forges give to headings: small letters, no punctuation, hyphens for spaces (from memory). */
function anchorsOf(text: string): Set<string> {
  const anchors = new Set<string>();
  for (const [, heading = ''] of text.replace(/^```[\s\S]*?^```$/gm, '').matchAll(/^#{1,6} (.*)$/gm)) {
    const slug = heading
      .toLowerCase()
      .replace(/\[([^\]]*)\]\([^)]*\)/g, '$1')
      .replace(/[^\p{L}\p{N}\s_-]/gu, '')
      .replace(/\s/g, '-');
    let unique = slug;
    for (let n = 1; anchors.has(unique); n++) unique = `${slug}-${n}`;
    anchors.add(unique);
  }
  return anchors;
}

/** What a link of a page leads to, from the root. */
const targetOf = (page: string, to: string): string =>
  to === '' ? page : relative(root, join(root, dirname(page), to));

function brokenOf(page: string, text: string): string[] {
  return linksOf(text).flatMap(({ to, anchor }) => {
    const target = targetOf(page, to);
    if (target.startsWith('..') || !existsSync(join(root, target))) return [`${to}: is not there`];
    const isPage = target.endsWith('.md');
    if (anchor !== null && (!isPage || !anchorsOf(target === page ? text : read(target)).has(anchor)))
      return [`${to}#${anchor}: no such heading`];
    return [];
  });
}

describe('links between pages', () => {
  it.each(pages)('of %s lead somewhere', (page) => expect(brokenOf(page, read(page))).toEqual([]));

  it('are many, and one that leads nowhere is told', () => {
    expect(pages.flatMap((page) => linksOf(read(page))).length).toBeGreaterThan(500);
    const text =
      '# A\n\n[b](no-such-page.md) [c](model.md#no-such-heading) [d](#a) [e](model.md#plans) [f](../../x.md)';
    expect(brokenOf('docs/README.md', text)).toEqual([
      'no-such-page.md: is not there',
      'model.md#no-such-heading: no such heading',
      '../../x.md: is not there',
    ]);
  });
});

describe('pages that go into the package', () => {
  /** For those who have the repository. */
  const ofTheRepository = /^(?:DEVELOPERS|CONTRIBUTING|SECURITY|CODE_OF_CONDUCT)\.md$|^(?:examples|tests)(?:\/|$)/;
  const isPacked = (path: string): boolean =>
    // The packaging program gives the front page and the changelog other names.
    !/^(?:README|CHANGELOG)\.md$/.test(path) && files.some((one) => path === one || path.startsWith(`${one}/`));

  it.each(pages.filter((page) => /^(?:docs\/|README|CHANGELOG)/.test(page)))(
    '%s links to what is in it, or to what only builders want',
    (page) => {
      const targets = linksOf(read(page)).map(({ to }) => targetOf(page, to));
      expect(targets.filter((to) => to !== page && !isPacked(to) && !ofTheRepository.test(to))).toEqual([]);
    },
  );
});

describe('docs/README.md', () => {
  const linked = new Set(linksOf(read('docs/README.md')).map(({ to }) => targetOf('docs/README.md', to)));

  it('names every page but those of single codes, which docs/codes.md names', () => {
    const wanted = pages.filter((page) => page.startsWith('docs/') && !page.startsWith('docs/codes/'));
    expect(wanted.filter((page) => page !== 'docs/README.md' && !linked.has(page))).toEqual([]);
    expect(wanted.length).toBeGreaterThan(25);
  });

  it('says of every picture how it is made', () => {
    const told = [...read('docs/README.md').matchAll(/`pictures\/([\w*.-]+)`/g)].map(
      ([, name = '']) => new RegExp(`^${name.replaceAll('.', '\\.').replaceAll('*', '.*')}$`),
    );
    const pictures = readdirSync(join(root, 'docs', 'pictures'));
    expect(pictures.filter((name) => !told.some((one) => one.test(name)))).toEqual([]);
  });
});

describe('README.md', () => {
  const page = read('README.md');

  it('is short', () => expect(page.trimEnd().split('\n').length).toBeLessThanOrEqual(80));

  it('is the page of the marketplace too: what it links to is in the package', () => {
    const targets = linksOf(page).map(({ to }) => to);
    expect(targets.length).toBeGreaterThan(8);
    const packed = (path: string): boolean => files.some((one) => path === one || path.startsWith(`${one}/`));
    expect(targets.filter((to) => !packed(to))).toEqual([]);
    for (const [, named = ''] of page.matchAll(/`([\w/]+\.md|examples)`/g))
      expect(existsSync(join(root, named))).toBe(true);
  });

  it('has the cautions, one picture, and three commands that there are', () => {
    expect(page).toContain('## Cautions, first');
    expect(page.indexOf('## Cautions, first')).toBeLessThan(page.indexOf('## Try it'));
    const [picture, ...others] = [...page.matchAll(/!\[[^\]]{40,}\]\(([^)]+)\)/g)].map(([, path]) => path ?? '');
    expect(others).toEqual([]);
    expect(statSync(join(root, picture ?? '')).size).toBeGreaterThan(10_000);
    const commands = [...page.matchAll(/^ {4}npm (?:run )?(\w+) /gm)].map(([, name = '']) => name);
    expect(commands).toEqual(['start', 'try', 'test']);
    for (const name of commands) expect(scripts).toHaveProperty(name);
  });
});
