import { afterEach, describe, expect, it, vi } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import type { EdgeLine } from '../../shared/picture/seek/edges.ts';
import type { PageMessage, PageState } from '../../src/messages/messages.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { FilmPixels } from '../../src/preview/placing/film-pixels.ts';
import { lookOf, sheetsMessage } from '../told-page.ts';

const uri = 'file:///a.hoof';
const film = `hoof 1

visit 2026-03-04
  film LF lateral "a.png"
    scale   100 mm = 90, 993 .. 90, 493
    ground  1100, 1048 .. 144, 1022
    p3.tip            @  432,  967
    p3.wing           @  874.5,  877
    p3.dorsal.upper   @  548,  778
    p3.dorsal.lower   @  466,  905 +- 1  # clear
`;
const fresh: PageState = {
  uri: null,
  film: null,
  cut: null,
  over: null,
  hidden: [],
  shows: { picture: true, drawing: true, lettering: true },
  scroll: 0,
};

function page(text = film) {
  const told: PageMessage[] = [];
  const model = new PageModel(fresh, {
    keep: () => undefined,
    tell: (one) => told.push(one),
    changed: () => undefined,
  });
  model.heard(sheetsMessage(text, { uri, version: 1 }, lookOf(model.shown.kept)));
  const sheet = () => {
    if (!model.sheet) throw new Error('no sheet');
    return model.sheet;
  };
  const { placing } = model;
  placing.open(sheet());
  const wishes = () => told.filter((one) => one.type === 'place');
  return {
    placing,
    sheet,
    wishes,
    live: () => placing.sheetOf(sheet()),
    written(): string {
      const [wish] = wishes().slice(-1);
      if (!wish) throw new Error('nothing was asked');
      const made = placeOnFilm(inspect(text).tree, wish.film, wish.placements);
      if ('refused' in made) throw new Error(made.refused);
      return [...made.edits]
        .reverse()
        .reduce((t, edit) => t.slice(0, edit.start) + edit.text + t.slice(edit.end), text);
    },
  };
}

const fitted: EdgeLine = {
  ends: [
    { x: 549.26, y: 778.84 },
    { x: 464.51, y: 903.99 },
  ],
  sds: [0.08, 1.37],
  angleSd: 0.1,
  share: 0.9,
  residualSd: 0.4,
};

describe('fitting a line to its edge', () => {
  it('is offered once both its points are placed, while one of them was placed last or is in the hand', () => {
    const one = page();
    expect(one.placing.edgeOffer(one.live())).toBeNull();
    one.placing.pick(one.sheet(), 'p3.tip');
    expect(one.placing.edgeOffer(one.live())).toBeNull();
    one.placing.pick(one.sheet(), 'p3.dorsal.lower');
    expect(one.placing.edgeOffer(one.live())).toMatchObject({ upper: 'p3.dorsal.upper', lower: 'p3.dorsal.lower' });
    const half = page(film.replace(/ {4}p3\.dorsal\.upper.*\n/, ''));
    half.placing.pick(half.sheet(), 'p3.dorsal.lower');
    expect(half.placing.edgeOffer(half.live())).toBeNull();
    half.placing.choose('p3.dorsal.upper');
    half.placing.click(half.sheet(), { x: 548, y: 778 });
    expect(half.placing.edgeOffer(half.live())).toMatchObject({ upper: 'p3.dorsal.upper' });
  });

  it('looks within 1.5 mm, and moves both points with their spread in one wish, which is one undo step', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'p3.dorsal.lower');
    const asked: unknown[] = [];
    one.placing.fitEdge(one.sheet(), (a, b, reach) => {
      asked.push(a.x, b.y, reach);
      return fitted;
    });
    // 100 mm are 500 px, so that 1.5 mm are 7.5 px and the finest spread that is written, 0.2 mm, is 1 px.
    expect(asked).toEqual([548, 905, 7.5]);
    expect(one.wishes()).toHaveLength(1);
    const text = one.written();
    expect(text).toBe(
      film
        .replace('p3.dorsal.upper   @  548,  778\n', 'p3.dorsal.upper   @  549.3,  778.8 +- 1\n')
        .replace('@  466,  905 +- 1  # clear', '@  464.5,  904 +- 1.4  # clear'),
    );
    expect(format(text)).toBe(text);
  });

  it('measures at once as the text will have it', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'p3.dorsal.lower');
    one.placing.fitEdge(one.sheet(), () => fitted);
    const again = page(one.written());
    expect(one.live().input).toEqual(again.live().input);
    expect(one.live().input.landmarks.find(({ name }) => name === 'p3.dorsal.upper')?.spread).toBe(1);
  });

  it('is not offered again for what was fitted, and again once a point of it was moved', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'p3.dorsal.upper');
    one.placing.fitEdge(one.sheet(), () => fitted);
    expect(one.placing.edgeOffer(one.live())).toBeNull();
    one.placing.pick(one.sheet(), 'p3.dorsal.upper');
    one.placing.nudge(one.sheet(), 3, 0);
    one.placing.drop(one.sheet());
    expect(one.placing.edgeOffer(one.live())).not.toBeNull();
  });

  it('says so where there is no edge, and writes nothing', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'p3.dorsal.upper');
    one.placing.fitEdge(one.sheet(), () => null);
    expect(one.placing.says).toContain('No edge was found');
    expect(one.wishes()).toEqual([]);
    // Nor where no line is offered.
    one.placing.pick(one.sheet(), 'p3.tip');
    one.placing.fitEdge(one.sheet(), () => fitted);
    expect(one.wishes()).toEqual([]);
  });
});

describe('a place that a hand moves', () => {
  it('loses a spread finer than a hand’s, which was that of the place before', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'p3.dorsal.lower');
    one.placing.nudge(one.sheet(), 4, 0);
    one.placing.drop(one.sheet());
    // 0.5 mm, which a hand is taken to place to, are 2.5 px here.
    expect(one.written()).toMatch(/p3\.dorsal\.lower {3}@ {2}470, {2}905 +# clear\n/);
  });

  it('keeps one that is coarser', () => {
    const one = page(film.replace('+- 1 ', '+- 6 '));
    one.placing.pick(one.sheet(), 'p3.dorsal.lower');
    one.placing.nudge(one.sheet(), 4, 0);
    one.placing.drop(one.sheet());
    expect(one.written()).toContain('p3.dorsal.lower   @  470,  905 +- 6  # clear\n');
  });
});

describe('the pixels of a film', () => {
  afterEach(() => vi.unstubAllGlobals());

  /** A browser that draws a picture from the grey at each place; the middle of the first pixel lies at 0.5, 0.5. */
  function browser(width: number, height: number, grey: (x: number, y: number) => number): void {
    class Loaded {
      naturalWidth = width;
      naturalHeight = height;
      #heard = (): void => undefined;
      addEventListener(type: string, heard: () => void): void {
        if (type === 'load') this.#heard = heard;
      }
      set src(_href: string) {
        this.#heard();
      }
    }
    vi.stubGlobal('Image', Loaded);
    let [left, top] = [0, 0];
    const pen = {
      drawImage: (_image: unknown, x: number, y: number) => ([left, top] = [x, y]),
      getImageData: (_x: number, _y: number, wide: number, high: number) => ({
        data: Uint8ClampedArray.from({ length: 4 * wide * high }, (_, i) => {
          const pixel = Math.floor(i / 4);
          return grey(left + (pixel % wide) + 0.5, top + Math.floor(pixel / wide) + 0.5);
        }),
      }),
    };
    vi.stubGlobal('document', { createElement: () => ({ width: 0, height: 0, getContext: () => pen }) });
  }

  // Where the edge is, is known: a step across x + y / 4 = 150.3, blurred over two pixels.
  const across = (x: number, y: number): number => (x + y / 4 - 150.3) / Math.hypot(1, 0.25);
  const step = (x: number, y: number): number => 60 + 120 / (1 + Math.exp(-across(x, y) / 0.8));

  it('tell the line beside two clicks, in the pixels of the page', () => {
    browser(400, 300, step);
    const pixels = new FilmPixels('a.png', () => undefined);
    expect(pixels.isReady).toBe(true);
    const line = pixels.edgeAlong({ x: 137, y: 60 }, { x: 99, y: 200 }, 8);
    for (const end of line?.ends ?? [{ x: 0, y: 0 }]) expect(Math.abs(across(end.x, end.y))).toBeLessThan(0.1);
    // Each straight across from its click.
    expect(line?.ends[0].y).toBeCloseTo(60, -1);
    expect(line?.ends[1].y).toBeCloseTo(200, -1);
  });

  it('tell it at the rim of the picture too, and none where there is none', () => {
    browser(152, 300, step);
    const rim = new FilmPixels('a.png', () => undefined).edgeAlong({ x: 148, y: 4 }, { x: 90, y: 240 }, 6);
    for (const end of rim?.ends ?? [{ x: 0, y: 0 }]) expect(Math.abs(across(end.x, end.y))).toBeLessThan(0.2);
    browser(400, 300, () => 90);
    const even = new FilmPixels('a.png', () => undefined);
    expect(even.edgeAlong({ x: 137, y: 60 }, { x: 99, y: 200 }, 8)).toBeNull();
  });
});
