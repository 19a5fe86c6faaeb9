import { describe, expect, it, vi } from 'vitest';
import { Cite } from '@citation-js/core';
import '@citation-js/plugin-bibtex';
import { bibtex } from '../../shared/export/bibtex.ts';
import { sources, type Source, type SourceName } from '../../shared/reference/sources.ts';
import { works, type Work } from '../../shared/reference/works.ts';

/** Read back by citation-js and its BibTeX reader (npm `@citation-js/core` and `@citation-js/plugin-bibtex`, 0.9.0), which asks no network for it. */
interface CslItem {
  readonly id: string;
  readonly type: string;
  readonly title?: string;
  readonly author?: readonly {
    readonly family?: string;
    readonly given?: string;
    readonly 'non-dropping-particle'?: string;
  }[];
  readonly 'container-title'?: string;
  readonly issued?: { readonly 'date-parts': readonly (readonly number[])[] };
  readonly volume?: string;
  readonly issue?: string;
  readonly page?: string;
  readonly DOI?: string;
  readonly publisher?: string;
  readonly note?: string;
}

const readBack = (text: string): CslItem[] => (new Cite(text) as { data: CslItem[] }).data;

const all = (Object.entries(works) as [SourceName, readonly Work[]][]).flatMap(([source, those]) =>
  those.map((work) => ({ source, work })),
);

const familyOf = (author: string): string => author.split(',')[0] ?? author;

describe('a list of references, as another program reads it', () => {
  const fetched = vi.spyOn(globalThis, 'fetch');
  const text = bibtex(all.map(({ work }) => ({ work, strength: 'memory' })));
  const items = readBack(text);

  it('has every work once, and asks no network', () => {
    expect(all.length).toBeGreaterThan(30);
    expect(items.map(({ id }) => id)).toEqual(all.map(({ work }) => work.key));
    expect(new Set(items.map(({ id }) => id)).size).toBe(items.length);
    expect(fetched).not.toHaveBeenCalled();
  });

  it.each(all.map(({ work }, index) => [work.key, work, items[index] as CslItem] as const))('%s', (_, work, item) => {
    const kinds = { article: 'article-journal', book: 'book', phdthesis: 'thesis', misc: 'document' };
    expect(item.type).toBe(kinds[work.kind]);
    const families = item.author?.map(({ family = '', 'non-dropping-particle': particle }) =>
      particle === undefined ? family : `${particle} ${family}`,
    );
    expect(families).toEqual(work.authors?.map(familyOf));
    expect(item.title).toBe(work.title);
    expect(item['container-title']).toBe(work.journal);
    expect(item.issued?.['date-parts'][0]?.[0]).toBe(work.year);
    expect(item.volume).toBe(work.volume);
    expect(item.issue).toBe(work.number);
    expect(item.page).toBe(work.pages?.join('-'));
    expect(item.DOI).toBe(work.doi);
    expect(item.publisher).toBe(work.school);
    expect(item.note).toBe(work.note);
  });

  it.each([
    ['signs of TeX', 'A & B: 50 % of #1_2 {x} ~y^z \\n'],
    ['letters beyond ASCII', 'Über “Hufe”, 蹄, حافر'],
    ['what looks like an entry', '} @article{x, title = {y}'],
  ])('keeps %s in a title and a note', (_, written) => {
    const work: Work = { key: 'x1', kind: 'misc', title: written, note: written };
    const [item, ...others] = readBack(bibtex([{ work, strength: 'read' }]));
    expect(others).toEqual([]);
    expect([item?.title, item?.note]).toEqual([written, written]);
  });
});

describe('the works behind the sources', () => {
  it.each(all.map(({ source, work }) => [work.key, sources[source] as Source, work] as const))(
    '%s says nothing that its source contradicts',
    (_, { cite, doi }, work) => {
      const [author] = work.authors ?? [];
      if (author !== undefined) expect(cite).toContain(familyOf(author));
      if (work.year !== undefined) expect(cite).toContain(String(work.year));
      if (work.volume !== undefined) expect(cite).toContain(work.volume);
      if (work.journal !== undefined) expect(cite).toContain(work.journal);
      if (work.pages !== undefined && work.volume !== undefined) expect(cite).toContain(`:${work.pages.join('-')}`);
      expect(work.doi).toBe(doi);
    },
  );

  it('none is left out: what has no work names no journal and no year', () => {
    const without = (Object.entries(works) as [SourceName, readonly Work[]][]).filter(
      ([, those]) => those.length === 0,
    );
    expect(without.map(([source]) => source).sort()).toEqual(
      ['grady', 'parks', 'reddenParks', 'reddenTrade', 'soleRule', 'stickQuotes', 'trade'].sort(),
    );
  });

  it('says above an entry that it is from memory, and how strong the ground is', () => {
    const [work] = works.linford;
    expect(
      bibtex([{ work: work as Work, strength: 'quoted' }])
        .split('\n')
        .slice(0, 3),
    ).toEqual([
      '% What is taken from it stands here as quoted by others.',
      '% This entry is from memory: look it up before you print it.',
      '@article{linford1993,',
    ]);
  });
});
