import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fleschKincaid } from 'flesch-kincaid';
import { HtmlValidate } from 'html-validate';
import { syllable } from 'syllable';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { handedPage, picturesOfPage, pageReaders, type PageReader } from '../../shared/report/pages/handed-page.ts';
import { usualStudy } from '../../shared/trim/study.ts';
import type { SeverityLevels } from '../../shared/findings/engine/severity-levels.ts';
import { unreadLines } from '../../shared/views/unread-lines.ts';
import { quoted } from '../../shared/report/pages/shell.ts';
import {
  alarmedCase,
  brokenPlan,
  filmOf,
  identifiers,
  namedCase,
  planned,
  poorCases,
  trimmedSince,
  vetsNumber,
} from './handed-cases.ts';

const examples = join(import.meta.dirname, '..', '..', 'examples');

/** The day after the last visit of each example, when its page would be handed over. */
const days: Readonly<Record<string, string>> = {
  'bramble.hoof': '2026-02-11',
  'fennel.hoof': '2026-09-08',
  'juniper.hoof': '2026-05-28',
  'larch.hoof': '2026-04-21',
  'mistakes.hoof': '2026-03-05',
  'sorrel.hoof': '2026-06-10',
  'teasel.hoof': '2026-06-11',
  'thistle.hoof': '2026-03-18',
};
const exampleTexts = readdirSync(examples)
  .filter((name) => name.endsWith('.hoof'))
  .map((name): [string, string] => [name, readFileSync(join(examples, name), 'utf8')]);
const usualDay = '2026-05-28';

/** Each page is made once, as several tests look at it. */
const made = new Map<string, string>();

function pageFor(reader: PageReader, text: string, { date = usualDay, names = false } = {}): string {
  const key = JSON.stringify([reader, text, date, names]);
  const page = made.get(key) ?? handedPage(reader, { inspection: inspect(text), pictures: new Map(), date, names });
  made.set(key, page);
  return page;
}

const allCases: readonly [string, string, string][] = [
  ...exampleTexts.map(([name, text]): [string, string, string] => [name, text, days[name] ?? usualDay]),
  ...Object.entries({ ...poorCases, named: namedCase, alarmed: alarmedCase }).map(
    ([name, text]): [string, string, string] => [name, text, usualDay],
  ),
];

describe('a case with lines that could not be read', () => {
  const mistakes = readFileSync(join(examples, 'mistakes.hoof'), 'utf8');
  // By hand: each of these has a remark in the file that says what is wrong with it, or is told by that name in the notation.
  const unread = [7, 8, 9, 10, 12, 15, 18, 19, 20, 21, 22, 25, 30, 34, 39, 61, 105, 106];

  it('knows which', () => {
    expect(unreadLines(inspect(mistakes))).toEqual(unread);
    // Whatever level somebody gives a code, what is not understood stays so.
    const levels = new Map([['notation/unknown-word', 'hint']]) as SeverityLevels;
    expect(unreadLines(inspect(mistakes, { ...usualStudy, levels }))).toEqual(unread);
    expect(unreadLines(inspect(planned()))).toEqual([]);
  });

  it.each(pageReaders)(
    'names them on the page for the %s, and says nothing of which they may tell otherwise',
    (reader) => {
      const shown = shownIn(pageFor(reader, mistakes, { date: '2026-03-05' }));
      expect(shown).toContain(
        'Lines 7, 8, 9, 10, 12, 15, 18, 19, 20, 21, 22, 25 and 6 more of the case could not be read',
      );
      expect(shown).toContain('No next date is written. A line that could not be read may say it.');
      // The trim of 3 March has two lines, and neither is understood: nobody knows what it took.
      expect(shown).not.toContain('nothing cut');
      if (reader !== 'yard') expect(shown).toMatch(/left fore: not understood/i);
      if (reader === 'yard') expect(shown).not.toContain('Measure the bar first');
      expect(shownIn(pageFor(reader, planned()))).not.toMatch(/could not be read/);
    },
  );

  it('say of a whole alarm no half', () => {
    const shown = shownIn(pageFor('vet', mistakes, { date: '2026-03-05' }));
    expect(shown).toContain('Do not trim before. When the vet has been, write: vet seen DATE.');
  });
});

/** What a reader sees: without tags, with the entities read. */
function shownIn(page: string): string {
  return plain(page.replaceAll(/<(style|title)>[^]*?<\/\1>/g, ' ').replaceAll(/<[^>]*>/g, ' '));
}

const plain = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
    .replaceAll(/\s+/g, ' ');

it('knows the day of each example', () => {
  expect(exampleTexts.map(([name]) => name)).toEqual(Object.keys(days));
});

describe('every page of every case', () => {
  // The rules of the HTML standard and of accessibility, none of style.
  const validator = new HtmlValidate({ extends: ['html-validate:standard', 'html-validate:a11y'] });

  it.each(allCases)('is valid HTML: %s', async (_, text, date) => {
    for (const reader of pageReaders) {
      const report = await validator.validateString(pageFor(reader, text, { date }));
      const told = report.results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message, line }) => `${ruleId} ${line}: ${message}`),
      );
      expect([reader, told]).toEqual([reader, []]);
    }
  });

  it('is held by a validator that would tell', async () => {
    const page = pageFor('owner', planned());
    const broken = await validator.validateString(page.replace('</main>', '').replace('<h1', '<h1 id="a" id="a"'));
    expect(broken.valid).toBe(false);
  });

  it.each(allCases)('runs nothing and asks for nothing: %s', (_, text, date) => {
    for (const reader of pageReaders) {
      const page = pageFor(reader, text, { date });
      expect(page).not.toMatch(/<(?:script|iframe|object|embed|form|link|base|video|audio)\b/i);
      expect(page).not.toMatch(/<[^>]*\son\w+\s*=/i);
      expect(page).not.toMatch(/@import|url\(/i);
      const links = [...page.matchAll(/\s(?:src|href|srcset|action|xlink:href)="([^"]*)"/g)].map(
        ([, href = '']) => href,
      );
      for (const href of links) expect(href).toMatch(/^(?:data:image\/|https:\/\/doi\.org\/10\.)/);
      expect(page).toContain(`default-src 'none'`);
    }
  });

  it.each(allCases)('says what it is, for whom, and what to mind: %s', (_, text, date) => {
    for (const reader of pageReaders) {
      const page = pageFor(reader, text, { date });
      expect(page.match(/<h1\b/g)).toHaveLength(1);
      expect(shownIn(page)).toMatch(/For the (?:owner|vet|yard) · \d+ \w+ 2026/);
      expect(shownIn(page)).toMatch(
        /not a diagnosis|Diagnosis, radiographs and pain belong to the vet|Diagnosis, films and pain belong to the vet/,
      );
      expect(page).not.toMatch(/undefined|NaN|\[object/);
    }
  });
});

describe('the page for the owner', () => {
  /** Flesch-Kincaid; each paragraph, point and row is a sentence, as it is read. Drawings and what others wrote are left out. */
  function grade(page: string): number {
    const body = page.slice(page.indexOf('<body')).replaceAll(/<svg[^]*?<\/svg>/g, ' ');
    const pieces = plain(body.replaceAll(/<\/(?:p|li|tr|h1|h2|h3|figcaption)>/g, '. ').replaceAll(/<[^>]*>/g, ' '));
    const own = pieces.replaceAll(/“[^”]*”/g, ' ');
    const sentences = own.split(/[.!?:]+(?=\s|$)/).filter((one) => /\p{L}/u.test(one));
    const words = own.match(/[\p{L}’']+/gu) ?? [];
    expect(words.length).toBeGreaterThan(60);
    return fleschKincaid({
      sentence: sentences.length,
      word: words.length,
      syllable: words.reduce((sum, word) => sum + syllable(word), 0),
    });
  }

  it.each(allCases)('reads at grade 9 or below: %s', (_, text, date) => {
    expect(grade(pageFor('owner', text, { date }))).toBeLessThanOrEqual(9);
  });

  it('would be told to read harder', () => {
    const hard =
      'Radiographically determined distopalmar reorientation necessitates multidisciplinary consultation. '.repeat(12);
    expect(grade(`<body><p>${hard}</p></body>`)).toBeGreaterThan(12);
  });

  it.each(exampleTexts)('names no code, no source and no landmark: %s', (name, text) => {
    const shown = shownIn(pageFor('owner', text, { date: days[name] ?? usualDay }));
    expect(shown).not.toMatch(/\b(?:range|trim|course|visit)\/[a-z]/);
    expect(shown).not.toMatch(/\b(?:p3|sole|toe|heel|wall|coronet)\.[a-z]/);
    expect(shown).not.toMatch(/Equine Vet|et al|10\.1111/);
  });

  it('tells how the animal is against the last time', () => {
    const shown = shownIn(pageFor('owner', readFileSync(join(examples, 'juniper.hoof'), 'utf8')));
    expect(shown).toContain('0 of 4, 27 May 2026 1 of 4, 29 April 2026 better');
    // 486 less 478 kg, and 6.5 less 6, as written.
    expect(shown).toContain('478 kg, 27 May 2026 486 kg, 29 April 2026 8 kg less');
    expect(shown).toContain('6 of 9, 27 May 2026 6.5 of 9, 29 April 2026 0.5 less');
    expect(shown).toContain('2.5 of 5, 27 May 2026 2.5 of 5, 29 April 2026 the same');
  });

  it('repeats what was agreed in its own words, with the day', () => {
    const shown = shownIn(pageFor('owner', readFileSync(join(examples, 'juniper.hoof'), 'utf8')));
    expect(shown).toContain('Feed: “soaked hay, 7 kg a day” (27 May 2026)');
    expect(shown).toContain('Turnout: “track, grass still closed” (27 May 2026)');
    expect(shown).toContain('The plan says: “the rest of the way to the sole plane, then keep”');
    // 27 May and five weeks, counted by hand.
    expect(shown).toContain('Next date 1 July 2026.');
    expect(shown).toContain('Feed is for you and your vet to settle.');
  });

  it('tells that a medicine has run out, and a date has passed', () => {
    const text = planned().replace(
      '  vet "agrees"',
      '  vet "agrees"\n  medicine "powder" dose "one" from 2026-05-01 until 2026-05-20',
    );
    const shown = shownIn(pageFor('owner', text, { date: '2026-07-02' }));
    expect(shown).toContain('“powder, one” from 1 May 2026, until 20 May 2026, this time is over');
    expect(shown).toContain('1 July 2026. That day has passed: ask for a new one.');
  });

  it('has the number of the vet where the case has one, and room for it where not', () => {
    expect(shownIn(pageFor('owner', namedCase))).toContain(`The vet’s number: ${vetsNumber}`);
    expect(shownIn(pageFor('owner', planned()))).toContain('The case has no number of the vet. Write it here:');
  });
});

describe('what identifies people and places', () => {
  it.each(pageReaders)('is on no page unasked: %s', (reader) => {
    const page = pageFor(reader, namedCase);
    // Attributes too, so the whole file is searched.
    for (const one of identifiers) expect(plain(page)).not.toContain(one);
    if (reader !== 'owner') expect(page).not.toContain(vetsNumber);
    expect(shownIn(page)).toContain('[left out]');
  });

  it('is on the page that was asked to say it', () => {
    const shown = shownIn(pageFor('vet', namedCase, { names: true }));
    for (const one of [
      '985000000000001',
      '826046031234567',
      'Ada Quillfeather',
      'Tobias Reedmace',
      'Nettlebed Farm',
      vetsNumber,
    ])
      expect(shown).toContain(one);
  });

  it('leaves dates, sizes and plain words where they are', () => {
    const shown = shownIn(pageFor('vet', planned('why "from 2026-05-26 on 12 - 14 mm, 100 mm bar"')));
    expect(shown).toContain('from 2026-05-26 on 12 - 14 mm, 100 mm bar');
    expect(shown).not.toContain('[left out]');
  });
});

describe('a page says what it could not show', () => {
  const says: readonly [string, PageReader, string][] = [
    ['no film', 'owner', 'There is no film of a foot from the side, so no foot is drawn.'],
    ['no film', 'vet', 'No foot is filmed yet.'],
    ['no film', 'yard', 'The case tells of no foot, so there is nothing to draw.'],
    ['nothing at all', 'owner', 'The case says nothing of comfort and weight.'],
    ['nothing at all', 'owner', 'No next date is written.'],
    ['nothing at all', 'vet', 'The case says nothing of how the animal is.'],
    ['nothing at all', 'yard', 'The case tells of no foot, so there is nothing to draw.'],
    ['no scale', 'owner', 'No cut is shown. The film of 26 May 2026 has no scale.'],
    ['no scale', 'vet', 'No scale: angles and ratios only.'],
    ['no scale', 'yard', 'No line is drawn. The film of 26 May 2026 has no scale.'],
    ['no scale', 'yard', 'The outline is not drawn: it takes a film from the side with a scale'],
    ['tape only', 'owner', 'By tape the toe is 86 mm long. On 27 April 2026 it was 90 mm.'],
    ['tape only', 'vet', 'No foot is filmed yet.'],
    ['tape only', 'yard', 'No plan is open for: left fore.'],
    ['one visit', 'owner', 'There is no course yet: nothing was measured twice.'],
    ['one visit', 'vet', 'First film of: left fore. There is no change to tell.'],
    ['one visit', 'vet', 'Without its picture.'],
    ['forty visits', 'owner', 'What was done before that stands in the case.'],
    ['a name in Arabic', 'owner', 'The vet: “ياسمين”'],
    ['a name in Arabic', 'vet', 'ياسمين'],
    ['a text of 10,000 characters', 'owner', '…” (the rest stands in the case)'],
    ['a text of 10,000 characters', 'yard', '…” (the rest stands in the case)'],
  ];

  it.each(says)('%s, for the %s: %s', (name, reader, words) => {
    expect(shownIn(pageFor(reader, poorCases[name] ?? ''))).toContain(words);
  });

  it('shows what others wrote as they wrote it, and runs none of it', () => {
    const page = pageFor('owner', poorCases['markup in every text'] ?? '');
    expect(page).toContain('&lt;script&gt;alert(1)&lt;/script&gt;');
    expect(shownIn(page)).toContain('“<img src=x onerror=alert(1)> & "hay"”');
    expect(page).toContain('<h1 dir="auto">&lt;b&gt;Clover&lt;/b&gt;</h1>');
  });

  it('takes no mark that turns the reading of what follows', () => {
    for (const reader of pageReaders)
      expect(pageFor(reader, planned('why "left \u202e turned"').replace('"agrees"', '"a\u2067grees"'))).not.toMatch(
        /[\u202a-\u202e\u2066-\u2069]/,
      );
  });

  it('gives the vet a whole long text, and the others its beginning', () => {
    const text = poorCases['a text of 10,000 characters'] ?? '';
    const [longest] = [...text.matchAll(/"([^"]{500,})"/g)].map(([, words = '']) => words);
    expect(longest?.length).toBeGreaterThan(9_900);
    expect(shownIn(pageFor('vet', text))).toContain(longest);
    expect(pageFor('owner', text).length).toBeLessThan(pageFor('owner', planned()).length + 3_000);
  });

  it('cuts a text at a blank, and never within a letter', () => {
    expect(quoted('one two three', 9)).toBe('“one two …” (the rest stands in the case)');
    expect(quoted(`${'x'.repeat(9)}😀`, 10)).toMatch(/^“x{9}\ufffd? …”/);
    expect(quoted('one  two\nthree', 80)).toBe('“one two three”');
  });

  it('draws every foot that was filmed, and a plan on each has its own line', () => {
    const text = poorCases['three feet'] ?? '';
    expect(pageFor('yard', text).match(/data-part="pen"/g)).toHaveLength(3);
    expect(pageFor('vet', text).match(/<figure><svg/g)).toHaveLength(3);
    const shown = shownIn(pageFor('vet', text));
    for (const foot of ['Left fore', 'Right fore', 'Left hind'])
      expect(shown).toContain(`${foot}, from the side, 26 May 2026.`);
  });

  it('embeds pictures on the page for the vet alone', () => {
    const inspection = inspect(planned());
    expect(picturesOfPage('vet', inspection)).toEqual(['LF-2026-05-26.png']);
    expect([picturesOfPage('owner', inspection), picturesOfPage('yard', inspection)]).toEqual([[], []]);
    const pictures = new Map([
      ['LF-2026-05-26.png', { href: 'data:image/png;base64,AAAA', width: 1200, height: 1100 }],
    ]);
    const page = (reader: PageReader): string =>
      handedPage(reader, { inspection, pictures, date: usualDay, names: false });
    expect(page('vet')).toContain('data:image/png;base64,AAAA');
    expect(page('owner')).not.toContain('data:image');
    expect(page('yard')).not.toContain('data:image');
  });
});

describe('care comes first', () => {
  it('alarms stand before all else on every page, and there is no line and no cut', () => {
    for (const reader of pageReaders) {
      const page = pageFor(reader, alarmedCase);
      const main = page.slice(page.indexOf('<main>') + 6).trim();
      expect(main).toMatch(/^<section class="alarms">/);
      expect(page).not.toContain('data-part="pen"');
      expect(page).not.toMatch(/data-part="cut"|class="months"/);
    }
    expect(shownIn(pageFor('owner', alarmedCase))).toContain('Ring your vet today.');
    expect(shownIn(pageFor('yard', alarmedCase))).toContain(
      'While an alarm is open there is no line to draw on this page.',
    );
  });

  const withheld: readonly [string, string, string, string][] = [
    ['breaks a limit', brokenPlan, usualDay, 'The plan breaks a limit: '],
    // 26 May and 43 days: one more than the setting.
    ['rests on too old a film', planned(), '2026-07-08', 'The film of 26 May 2026 is 43 days old'],
    [
      'was followed by a newer film',
      `${planned()}visit 2026-05-28\n${filmOf('LF', '2026-05-28')}\n`,
      usualDay,
      'A newer film of this foot was taken after the plan.',
    ],
    ['takes one side by itself', planned('inside down 1 mm'), usualDay, 'The plan takes one side by itself'],
    [
      'comes after a trim without millimetres',
      planned().replace('  plan LF', '  trim LF\n    work "rounded"\n\n  plan LF'),
      usualDay,
      'A trim since the film says no millimetres',
    ],
    [
      'is of a lame animal without the vet',
      planned().replace('obel 0', 'obel 1').replace('  vet "agrees"\n', ''),
      usualDay,
      'no vet line says what the vet agrees to',
    ],
  ];

  it.each(withheld)('there is no line where the plan %s, and the page says why', (_, text, date, why) => {
    for (const reader of ['owner', 'yard', 'vet'] as const) {
      const page = pageFor(reader, text, { date });
      expect(page).not.toContain('data-part="pen"');
      expect(page).not.toMatch(/data-part="cut"|class="months"/);
      expect(shownIn(page)).toContain(why);
    }
  });

  it('the film is not too old on its last day', () => {
    expect(pageFor('yard', planned(), { date: '2026-07-07' })).toContain('data-part="pen"');
  });

  it('a plan that was carried out is open no more', () => {
    expect(shownIn(pageFor('yard', trimmedSince))).toContain('No plan is open for this foot');
    expect(shownIn(pageFor('owner', trimmedSince))).toContain('No cut of this foot is planned now.');
  });
});

it('the normal foot on the page for the owner is drawn whole', () => {
  const text = readFileSync(join(examples, 'teasel.hoof'), 'utf8');
  const [, svg = ''] =
    /class="plate"[^]*?(<svg[^]*?<\/svg>)/.exec(pageFor('owner', text, { date: '2026-06-11' })) ?? [];
  const [x = 0, y = 0, width = 0, height = 0] = (/viewBox="([^"]*)"/.exec(svg)?.[1] ?? '').split(' ').map(Number);
  const paths = [...svg.matchAll(/<path class="over-line[^"]*"[^>]* d="([^"]*)"/g)].map(([, d = '']) => d);
  expect(paths.length).toBeGreaterThan(4);
  for (const path of paths) {
    const numbers = (path.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);
    numbers.forEach((value, index) => {
      const [from, size] = index % 2 === 0 ? [x, width] : [y, height];
      expect(value).toBeGreaterThanOrEqual(from);
      expect(value).toBeLessThanOrEqual(from + size);
    });
  }
});
