import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { agreementSheet } from '../../shared/views/agreement-sheet.ts';
import { useWords } from '../../shared/language/words.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { AgreementView } from '../../src/preview/agreement/agreement-view.tsx';
import { drawDifferences } from '../../shared/drawing/agreement/difference-plot.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import german from '../../l10n/bundle.l10n.de.json' with { type: 'json' };
import { readingsMessage } from '../told-page.ts';

const file = join(import.meta.dirname, '..', 'agreement', 'three-readers.hoof');
const text = readFileSync(file, 'utf8');

/** Figures with a point, and days as the notation has them. */
const foreign = /(?<![\d.])\d+\.\d+(?![\d.])|\b20\d\d-\d\d-\d\d\b/;
const english = /\b(?:the|of|and|with|is|are|readers?|readings?|films?|foot|feet|least|mean|left out)\b/;

beforeEach(() => useWords(german));
afterEach(() => useWords(undefined));

const answer = async (...args: string[]): Promise<string> => {
  let out = '';
  await commandLine(args, { out: (told) => (out += told), err: () => undefined });
  return out;
};

describe('readings of one film, in German', () => {
  it('stand on the page with commas and days of the language', () => {
    const { type: _type, uri: _uri, ...readings } = readingsMessage(text);
    const choice = { of: 'case', all: true, measure: null, pair: null } as const;
    const page = renderToString(h(AgreementView, { readings, caseName: 'Alder', choice, said: null }));
    const shown = [
      ...page.replaceAll(/<style>[^]*?<\/style>/g, '').split(/<[^>]*>/),
      ...[...page.matchAll(/aria-(?:label|description|valuetext)="([^"]*)"/g)].map(([, words = '']) => words),
    ];
    expect(shown.join(' ')).toContain('Übereinstimmung');
    expect(shown.join(' ')).toMatch(/\d,\d\d°/);
    expect(shown.filter((piece) => foreign.test(piece))).toEqual([]);
    expect(shown.filter((piece) => english.test(piece))).toEqual([]);
  });

  it('are drawn with commas at the axes too, and listed with the point in CSV', () => {
    const sheet = agreementSheet(readingsMessage(text));
    const words = sheet.measures
      .flatMap(({ pairs }) => pairs)
      .flatMap(({ plot, said }) => [
        ...said,
        ...sceneToSvg(drawDifferences({ ...plot, width: 480 }).scene).split(/<[^>]*>/),
      ]);
    expect(words.filter((piece) => /^−?\d+,\d+°$/.test(piece)).length).toBeGreaterThan(3);
    expect(words.filter((piece) => foreign.test(piece))).toEqual([]);
    expect(sheet.csv()).toMatch(/\d\.\d/);
  });

  it('are told by agree and summary as German has it, and a line of the notation with the point', async () => {
    for (const args of [
      ['agree', file, '--all'],
      ['summary', file, '--by', 'foot'],
    ]) {
      const told = await answer(...args);
      expect(told).toMatch(/\d,\d/);
      // The kind of correlation is a name, and a measure’s own name stands behind its words.
      const lines = told.replaceAll(/ICC\(\d,\d\)|\([a-z]+(?:[.-][a-z]+)*\)/g, ' ').split('\n');
      expect(lines.filter((line) => foreign.test(line))).toEqual([]);
      expect(lines.filter((line) => english.test(line))).toEqual([]);
    }
    const spread = await answer('agree', file, '--spread');
    expect(spread).toMatch(/: \d,\d\d mm \(.*Freiheitsgrade\); 95-%-Intervall \d,\d\d bis \d,\d\d mm/);
    expect(spread).toMatch(/read "[^"]*" \+- \d+(?:\.\d+)?(?:$|,|:)/m);
  });

  it('make a paragraph that writes its numbers as German does', async () => {
    const told = await answer('methods', file);
    expect(told).toContain('Standardabweichung der Auswertungen');
    expect(told).toMatch(/\d,\d\d?°/);
    expect(told).not.toMatch(/\d\.\d+ ?(?:mm|°|%|px)/);
  });
});
