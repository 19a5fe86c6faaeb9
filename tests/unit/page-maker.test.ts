import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PNG } from 'pngjs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { ThreadQuestion } from '../../shared/protocol/page-thread.ts';
import { handedPage, pageReaders } from '../../shared/report/pages/handed-page.ts';
import { madePage, type CaseGrounds, type PageQuestion } from '../../shared/report/pages/page-maker.ts';
import { pageText } from '../../shared/report/pages/page-text.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import { PageMaker, type PageWorker } from '../../src/extension/page-maker.ts';
import { pageWorker } from '../../src/extension/page-worker.ts';
import { planned } from './handed-cases.ts';
import { Program } from './command-line-program.ts';
import { readPdf } from './read-pdf.ts';

const text = planned();
const grounds: CaseGrounds = { text, settings: usualStudy, levels: [], scales: [], missing: [] };
const question = (more: Partial<PageQuestion> = {}): PageQuestion => ({
  grounds,
  reader: 'yard',
  date: '2026-05-28',
  names: false,
  pictures: [],
  ...more,
});

describe('a page made of plain data', () => {
  it.each(pageReaders)('is the page of the same text: %s', (reader) => {
    const page = handedPage(reader, {
      inspection: inspect(text),
      pictures: new Map(),
      date: '2026-05-28',
      names: false,
    });
    // As it comes through a connection and into a thread.
    const sent = structuredClone(JSON.parse(JSON.stringify(question({ reader }))) as PageQuestion);
    expect(madePage(sent)).toEqual({ html: page });
  });

  it('goes by the settings that come with it', () => {
    const settings = { ...usualStudy, trim: { ...usualStudy.trim, filmAge: 1 } };
    const made = madePage(question({ grounds: { ...grounds, settings } }));
    expect('html' in made && made.html).toContain(
      'The film of 26 May 2026 is 2 days old; after 1 it shows another foot',
    );
  });

  it('first names the pictures that it would show', () => {
    expect(madePage(question({ reader: 'vet', pictures: null }))).toEqual({ wants: ['LF-2026-05-26.png'] });
    expect(madePage(question({ pictures: null }))).toEqual({ wants: [] });
  });
});

describe('the thread that makes pages', () => {
  let program: Program;
  beforeAll(async () => {
    program = await Program.build({ pdf: true });
  });
  afterAll(() => program.remove());

  it('is the command line as it ships, and says what the editor would', async () => {
    const maker = new PageMaker(() => pageWorker(program.path));
    try {
      expect(await maker.make(question())).toEqual(madePage(question()));
    } finally {
      maker.end();
    }
  });

  it('makes a PDF of a page, the same as the command line does', async () => {
    const page = madePage(question());
    const html = 'html' in page ? page.html : '';
    const maker = new PageMaker(() => pageWorker(program.path));
    try {
      const made = await maker.pdf({ html, date: '2026-05-28', paper: 'a4' });
      if ('problem' in made) throw new Error(made.problem);
      expect(made.notShown).toEqual([]);
      const { info, text: words } = await readPdf(made.bytes);
      expect(info).toMatchObject({ Title: 'Clover: For the yard' });
      expect(words).toContain('Measurethebarfirst');
      const [caseFile, file] = [join(program.folder, 'clover.hoof'), join(program.folder, 'clover.pdf')];
      writeFileSync(caseFile, text);
      const { status, err } = program.shell(`ungula report ${caseFile} --for yard --on 2026-05-28 -o ${file}`);
      expect([status, err]).toEqual([0, []]);
      // The pictures of the case are not there for either.
      expect(readFileSync(file).equals(Buffer.from(made.bytes))).toBe(true);
    } finally {
      maker.end();
    }
  });

  it.each([6, 4, 2, 0] as const)(
    'holds the picture of a film, see-through or not: kind of colour %i',
    async (colorType) => {
      const image = new PNG({ width: 30, height: 20 });
      image.data.fill(90);
      const href = `data:image/png;base64,${PNG.sync.write(image, { colorType }).toString('base64')}`;
      const pictures = [['LF-2026-05-26.png', { href, width: 30, height: 20 }]] as const;
      const page = madePage(question({ reader: 'vet', pictures }));
      const maker = new PageMaker(() => pageWorker(program.path));
      try {
        const html = 'html' in page ? page.html : '';
        const made = await maker.pdf({ html, date: '2026-05-28', paper: 'a4' });
        if ('problem' in made) throw new Error(made.problem);
        expect(made.notShown).toEqual([]);
        expect((await readPdf(made.bytes)).sheets[0]?.pictures).toBe(1);
      } finally {
        maker.end();
      }
    },
  );

  it('tells on standard error what a PDF cannot show', () => {
    const [caseFile, file] = [join(program.folder, 'other.hoof'), join(program.folder, 'other.pdf')];
    writeFileSync(caseFile, text.replace('Clover', 'Clover 馬'));
    const { status, out, err } = program.shell(
      `ungula report ${caseFile} --for yard --on 2026-05-28 --paper letter -o ${file}`,
    );
    expect([status, out.trim()]).toEqual([0, file]);
    expect(err).toEqual([expect.stringContaining('no letters for U+99AC')]);
  });

  it('that ends in an error is told in a sentence, and the next page has another', async () => {
    const broken = join(program.folder, 'broken.mjs');
    writeFileSync(broken, 'throw new Error("no")');
    let started = 0;
    const maker = new PageMaker(() => pageWorker((started += 1) === 1 ? broken : program.path));
    try {
      expect(await maker.make(question())).toEqual({ problem: expect.stringContaining('did not answer') });
      expect(await maker.make(question({ pictures: null }))).toEqual({ wants: [] });
    } finally {
      maker.end();
    }
  });
});

it('pages asked for together are answered each with its own', async () => {
  const asked: ThreadQuestion[] = [];
  let answer: Parameters<PageWorker['hear']>[0] = () => {};
  const worker: PageWorker = {
    postMessage: (one) => void asked.push(one),
    hear: (answered) => (answer = answered),
    terminate: () => {},
  };
  const maker = new PageMaker(() => worker);
  const both = [maker.make(question()), maker.make(question({ reader: 'owner' }))];
  const [first, second] = asked;
  answer({ id: second?.id ?? -1, made: { html: 'owner' } });
  answer({ id: first?.id ?? -1, made: { html: 'yard' } });
  expect(await Promise.all(both)).toEqual([{ html: 'yard' }, { html: 'owner' }]);
  const left = maker.make(question());
  maker.end();
  expect(await left).toEqual({ problem: expect.stringContaining('did not answer') });
});

it('the words of a page are copied a line each, without drawings and tags', () => {
  const made = madePage(question({ reader: 'owner' }));
  const words = pageText('html' in made ? made.html : '');
  expect(words).not.toMatch(/<[a-z/]|ungula-plate|default-src/);
  expect(words.split('\n')).toEqual(
    expect.arrayContaining([
      'Clover',
      'How it stands now',
      'When to ring the vet now',
      '- It has a fever, or it sweats.',
    ]),
  );
  expect(pageText('<body><p>a &lt;b&gt; &amp; c</p></body>')).toBe('a <b> & c');
});
