import { h, type ComponentChildren } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { ActionsContext } from '../../src/preview/actions.ts';
import { bound } from '../../src/preview/bound.ts';
import { Page } from '../../src/preview/page.tsx';
import { PageModel } from '../../src/preview/page-model.ts';
import { handlesOf } from '../../src/preview/placing/handles.ts';
import { PlacingView } from '../../src/preview/placing/placing-view.tsx';
import { landmarks } from '../../shared/notation/landmarks.ts';
import { nameOfLandmark } from '../../shared/views/landmark-names.ts';
import { everyStep } from '../../shared/views/what-to-place.ts';
import { lookOf, sheetsMessage } from '../told-page.ts';
import { freshState } from '../../src/preview/fresh-state.ts';

const uri = 'file:///a.hoof';
const film = 'hoof 1\n\nvisit 2026-03-04\n  film LF lateral "a.png"\n';
/** All that the usual set asks for, and nothing of what a plan needs beside. */
const usual = `${film}    scale 100 mm = 90, 993 .. 77, 443.5
    ground 1100, 1048 .. 144, 1022
    p3.tip @ 432, 967
    p3.wing @ 874.5, 877.5
    p3.dorsal.upper @ 548, 778
    p3.dorsal.lower @ 466, 905
    coffin.centre @ 702, 735
    pastern.centre @ 860, 540
    wall.upper @ 480, 720
    wall.lower @ 330, 925
    sole.tip @ 430, 1015
    sole.wing @ 860, 960
`;
const found = { picture: { href: 'a.png', width: 1400, height: 1200 }, says: null, wait: false };

const proposing = { before: null, pictureBefore: null };

function page(text: string) {
  const model = new PageModel(freshState, { keep: () => undefined, tell: () => undefined, changed: () => undefined });
  model.heard(sheetsMessage(text, { uri, version: 1 }, lookOf(model.shown.kept)));
  const { sheet } = model;
  if (!sheet) throw new Error('no sheet');
  const inside = (part: ComponentChildren): string =>
    renderToString(h(ActionsContext.Provider, { value: bound(model), children: part }));
  return {
    sheet,
    placing: model.placing,
    html: () =>
      inside(
        h(PlacingView, { model: model.placing, sheet, found, proposing, line: null, drawing: true, trouble: null }),
      ),
    plate: () => inside(h(Page, { placing: model.placing, shown: model.shown, sheet, found })),
  };
}

/** What a person reads or hears: text, and the attributes that are told. */
const said = (html: string): string =>
  [
    html.replace(/<svg.*?<\/svg>/gs, ' ').replace(/<[^>]*>/g, ' '),
    ...[...html.matchAll(/(?:aria-label|title|alt|placeholder)="([^"]*)"/g)].map(([, words]) => words),
  ].join('\n');

describe('the card of placing', () => {
  it('asks once which way the toe points, by two feet, and faces that way from then on', () => {
    const one = page(film);
    one.placing.open(one.sheet);
    const first = one.html();
    expect(first).toContain('Which way does the toe point?');
    expect(first.match(/aria-label="The toe points to the (left|right)"/g)).toHaveLength(2);
    expect(first).not.toContain('Where it lies: Scale marker');
    one.placing.sayToe('a.png', 'right');
    const right = one.html();
    expect(right).not.toContain('Which way');
    expect(right).toContain('Where it lies: Scale marker');
    one.placing.sayToe('a.png', 'left');
    expect(one.html()).not.toBe(right);
  });

  it('asks nothing where what is placed tells it', () => {
    const one = page(usual);
    one.placing.open(one.sheet);
    one.placing.choose('sole.heel');
    expect(one.html()).not.toContain('Which way');
  });

  it('has no length of a marker before somebody has written one', () => {
    const one = page(film);
    one.placing.open(one.sheet);
    expect(one.html()).toMatch(/<input type="number"[^>]* value(=""|)(?=[\s/>])/);
    one.placing.line(one.sheet, [
      { x: 1, y: 1 },
      { x: 9, y: 500 },
    ]);
    expect(one.html()).toContain('Write how long the marker is and press Enter.');
    one.placing.setMarker(one.sheet, 80);
    one.placing.choose('scale');
    expect(one.html()).toMatch(/<input type="number"[^>]* value="80"/);
  });

  it('offers what a plan needs once all is placed', () => {
    const one = page(usual);
    one.placing.open(one.sheet);
    const html = one.html();
    expect(html).toContain('All that is wanted is placed');
    expect(html).toContain('Go on with what a plan needs');
    expect(html).toContain('3 places more');
    const offer = one.placing.offer(one.sheet);
    if (!offer) throw new Error('no offer');
    one.placing.goOn(one.sheet, offer);
    expect(one.html()).toContain(nameOfLandmark('toe.ground'));
  });

  it('says no landmark by its name in the notation, whatever is asked for or in the hand', () => {
    const coded = landmarks.map(({ word }) => word).filter((word) => word.includes('.'));
    expect(coded.length).toBeGreaterThan(30);
    const one = page(usual);
    one.placing.open(one.sheet);
    one.placing.sayToe('a.png', 'left');
    const pages = [one.html()];
    for (const { key } of everyStep(one.sheet)) {
      one.placing.choose(key);
      pages.push(one.html());
    }
    for (const { key } of handlesOf(one.sheet)) {
      one.placing.pick(one.sheet, key);
      pages.push(one.html());
    }
    for (const html of pages) {
      const words = said(html);
      expect(words).toContain('Round the foot');
      expect(coded.filter((word) => words.includes(word))).toEqual([]);
      expect(words).not.toMatch(/\b(?:scale|ground|bearing)\.[01]\b|[a-z]+\/[a-z-]+/);
    }
  });
});

describe('the plate after placing', () => {
  it('says nothing of open places once all that was wanted is placed', () => {
    expect(said(page(usual).plate())).not.toMatch(/not placed|open yet/);
  });

  it('says how many are open of what is wanted, by their names in the trade', () => {
    const one = page(usual.replace(/ {4}sole.*\n/g, ''));
    const words = said(one.plate());
    expect(words).toContain('2 places are open yet of what is wanted: rotation and sole');
    expect(words).toContain('Sole below the tip');
    expect(said(page(usual.replace(/ {4}sole.tip.*\n/, '')).plate())).toContain('One place is open yet');
  });
});
