import { afterEach, describe, expect, it, vi } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import type { CircleFit } from '../../shared/picture/seek/circle-fit.ts';
import type { EdgeLine } from '../../shared/picture/seek/edges.ts';
import type { PageMessage } from '../../src/messages/messages.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { rimWords, type EdgeFit, type FitRim } from '../../src/preview/placing/edge-fit.ts';
import { FilmPixels } from '../../src/preview/placing/film-pixels.ts';
import { lookOf, sheetsMessage } from '../told-page.ts';
import { freshState } from '../../src/preview/fresh-state.ts';

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
function page(text = film) {
  const told: PageMessage[] = [];
  const model = new PageModel(freshState, {
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

describe('fitting a line that is placed by its ends', () => {
  const ends: EdgeFit = {
    ends: [
      { x: 1100.2, y: 1046.53 },
      { x: 143.96, y: 1020.08 },
    ],
    sds: [0.1, 0.1],
  };

  it('is offered for the ground line, the bearing line and the marker, in the hand or placed last', () => {
    const shod = film
      .replace('  film', '  shoe LF 10 mm\n\n  film')
      .replace('    p3.tip', '    bearing 1090, 1000 .. 150, 980\n    p3.tip');
    const one = page(shod);
    for (const [key, line] of [
      ['ground.1', 'ground'],
      ['bearing.0', 'bearing'],
      ['scale.0', 'scale'],
    ] as const) {
      one.placing.pick(one.sheet(), key);
      expect(one.placing.edgeOffer(one.live())).toMatchObject({ line });
      one.placing.pick(one.sheet(), null);
      expect(one.placing.edgeOffer(one.live())).toMatchObject({ line });
    }
    const bare = page(film.replace(/ {4}ground.*\n/, ''));
    bare.placing.choose('ground');
    for (const at of [
      { x: 1100, y: 1048 },
      { x: 144, y: 1022 },
    ]) {
      expect(bare.placing.edgeOffer(bare.live())).toBeNull();
      bare.placing.click(bare.sheet(), at);
    }
    expect(bare.placing.edgeOffer(bare.live())).toMatchObject({ line: 'ground' });
    bare.placing.choose('p3.extensor');
    bare.placing.click(bare.sheet(), { x: 560, y: 760 });
    expect(bare.placing.edgeOffer(bare.live())).toBeNull();
  });

  it('lays both ends of the ground onto a long edge in one undo step, and states no deviation', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'ground.0');
    const asked: unknown[] = [];
    one.placing.fitEdge(one.sheet(), (...what) => {
      asked.push(...what);
      return ends;
    });
    expect(asked).toEqual([{ x: 1100, y: 1048 }, { x: 144, y: 1022 }, 7.5, 'long edge']);
    expect(one.wishes()).toHaveLength(1);
    const text = one.written();
    expect(text).toBe(film.replace('1100, 1048 .. 144, 1022', '1100.2, 1046.5 .. 144, 1020.1'));
    expect(format(text)).toBe(text);
    expect(one.live().input).toEqual(page(text).live().input);
    // What was fitted is not offered again until a hand has moved it.
    expect(one.placing.edgeOffer(one.live())).toBeNull();
    one.placing.pick(one.sheet(), 'ground.1');
    expect(one.placing.edgeOffer(one.live())).toBeNull();
    one.placing.nudge(one.sheet(), 0, 4);
    one.placing.drop(one.sheet());
    expect(one.placing.edgeOffer(one.live())).toMatchObject({ line: 'ground' });
  });

  it('lays the marker onto its ends and keeps its length', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'scale.1');
    const asked: unknown[] = [];
    one.placing.fitEdge(one.sheet(), (...what) => {
      asked.push(...what);
      return {
        ends: [
          { x: 90, y: 994.24 },
          { x: 90, y: 491.8 },
        ],
      };
    });
    expect(asked).toEqual([{ x: 90, y: 993 }, { x: 90, y: 493 }, 7.5, 'ends']);
    expect(one.written()).toBe(film.replace('90, 993 .. 90, 493', '90, 994.2 .. 90, 491.8'));
  });

  it('says what is not told, and writes nothing', () => {
    const one = page();
    one.placing.pick(one.sheet(), 'ground.0');
    one.placing.fitEdge(one.sheet(), () => null);
    expect(one.placing.says).toContain('No edge was found');
    one.placing.pick(one.sheet(), 'scale.0');
    one.placing.fitEdge(one.sheet(), () => null);
    expect(one.placing.says).toContain('both ends of the marker');
    expect(one.wishes()).toEqual([]);
  });
});

describe('a joint’s centre by three points on its rim', () => {
  const points = [
    { x: 600, y: 840 },
    { x: 640, y: 880 },
    { x: 680, y: 840 },
  ] as const;
  const circle: CircleFit = {
    centre: { x: 641.23, y: 838.94 },
    radius: 41,
    centreSd: 1.62,
    radiusSd: 0.4,
    residualSd: 0.5,
    count: 40,
  };

  function rimmed(fit: FitRim | null) {
    const one = page();
    one.placing.fitRim = fit;
    one.placing.choose('coffin.centre');
    one.placing.toggleRim();
    for (const at of points) one.placing.click(one.sheet(), at);
    return one;
  }

  it('is that of the circle on the edge beside them, with what the fit is good for', () => {
    const asked: unknown[] = [];
    const one = rimmed((...what) => {
      asked.push(...what);
      return circle;
    });
    const found = one.placing.rimCentre(one.live());
    expect(found).toMatchObject({ centre: circle.centre, radius: 41, edge: true });
    expect(rimWords(found)).toContain('lies on the edge');
    // Asked for once, however often it is drawn.
    expect(one.placing.rimCentre(one.live())).toBe(found);
    expect(asked).toEqual([[...points], 7.5]);
    expect(one.placing.acceptRim(one.sheet())).toBe(true);
    expect(one.written()).toContain('    coffin.centre     @  641.2,  838.9 +- 1.6\n');
  });

  it('states at least 0.2 mm, which are 1 px here', () => {
    const one = rimmed(() => ({ ...circle, centreSd: 0.1 }));
    one.placing.acceptRim(one.sheet());
    expect(one.written()).toContain('    coffin.centre     @  641.2,  838.9 +- 1\n');
  });

  it('goes through the three points where there is no edge, says so, and states nothing', () => {
    for (const fit of [() => null, () => undefined, null]) {
      const one = rimmed(fit);
      const found = one.placing.rimCentre(one.live());
      expect(found).toMatchObject({ centre: { x: 640, y: 840 }, radius: 40 });
      expect(rimWords(found)).toContain(fit?.() === null ? 'No edge was found' : 'The centre is found');
      expect(one.placing.acceptRim(one.sheet())).toBe(true);
      expect(one.written()).toContain('    coffin.centre     @  640,  840\n');
    }
  });

  it('waits for the picture, and is looked for again once it is there', () => {
    let picture: CircleFit | undefined;
    const one = rimmed(() => picture);
    expect(one.placing.rimCentre(one.live())).not.toHaveProperty('edge');
    picture = circle;
    expect(one.placing.rimCentre(one.live())).toMatchObject({ edge: true });
  });

  it('is not looked for while a point is in the hand, and anew when it is let go', () => {
    let times = 0;
    const one = rimmed(() => {
      times += 1;
      return circle;
    });
    one.placing.rimCentre(one.live());
    for (let step = 1; step < 5; step++) {
      one.placing.moveRim(2, { x: 680 + step, y: 840 });
      expect(one.placing.rimCentre(one.live())).not.toHaveProperty('edge');
    }
    expect(times).toBe(1);
    one.placing.restRim();
    expect(one.placing.rimCentre(one.live())).toMatchObject({ edge: true });
    expect(times).toBe(2);
  });

  it('asks for points that lie apart before any edge is looked for', () => {
    const one = page();
    one.placing.fitRim = () => {
      throw new Error('the picture was looked at');
    };
    one.placing.choose('coffin.centre');
    one.placing.toggleRim();
    expect(rimWords(one.placing.rimCentre(one.live()))).toContain('Three points');
    for (const x of [600, 640, 680]) one.placing.click(one.sheet(), { x, y: 840 });
    expect(rimWords(one.placing.rimCentre(one.live()))).toContain('nearly on a line');
    expect(one.placing.acceptRim(one.sheet())).toBe(false);
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

  it('tell the ends of a bar and the circle of a rim, in the pixels of the page', () => {
    const rise = (far: number): number => 1 / (1 + Math.exp(-far / 0.8));
    browser(400, 300, (x, y) => 50 + 130 * rise(x - 60.4) * rise(330.8 - x) * rise(6 - Math.abs(y - 150)));
    const bar = new FilmPixels('a.png', () => undefined);
    const { ends } = bar.edgeAlong({ x: 63, y: 151 }, { x: 328, y: 149 }, 8, 'ends') ?? { ends: [] };
    expect(ends.map(({ x }) => x)).toEqual([expect.closeTo(60.4, 0), expect.closeTo(330.8, 0)]);
    for (const [end, true_] of [
      [ends[0], 60.4],
      [ends[1], 330.8],
    ] as const)
      expect(Math.abs((end?.x ?? 0) - true_)).toBeLessThan(0.2);
    browser(400, 300, (x, y) => 50 + 130 * rise(70 - Math.hypot(x - 200.7, y - 140.2)));
    const rim = new FilmPixels('a.png', () => undefined);
    const clicks = [
      { x: 133, y: 142 },
      { x: 200, y: 207 },
      { x: 268, y: 141 },
    ] as const;
    const circle = rim.edgeAround(...clicks, 8);
    expect(Math.hypot((circle?.centre.x ?? 0) - 200.7, (circle?.centre.y ?? 0) - 140.2)).toBeLessThan(0.2);
    expect(circle?.radius).toBeCloseTo(70, 0);
    browser(400, 300, () => 90);
    const even = new FilmPixels('a.png', () => undefined);
    expect(even.edgeAround(...clicks, 8)).toBeNull();
    expect(even.edgeAlong(clicks[0], clicks[2], 8, 'ends')).toBeNull();
    expect(even.edgeAlong(clicks[0], clicks[2], 8, 'long edge')).toBeNull();
  });
});
