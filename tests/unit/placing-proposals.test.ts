import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { placeOnFilm } from '../../shared/edits/place-on-film.ts';
import type { Proposal } from '../../shared/proposals/proposal.ts';
import type { PageMessage } from '../../src/messages/messages.ts';
import { ActionsContext } from '../../src/preview/actions.ts';
import { bound } from '../../src/preview/bound.ts';
import { PageModel } from '../../src/preview/page-model.ts';
import { layHand } from '../../src/preview/placing/hand.ts';
import { keyPressed } from '../../src/preview/placing/keys.ts';
import { PlacingView } from '../../src/preview/placing/placing-view.tsx';
import type { PlacingStage } from '../../src/preview/placing/stage.ts';
import { sheetsMessage } from '../told-page.ts';
import { freshState } from '../../src/preview/fresh-state.ts';

const uri = 'file:///a.hoof';
const basis = `    scale   100 mm = 90, 993 .. 90, 493
    ground  1100, 1048 .. 144, 1022
    p3.tip            @  432,  967
    p3.wing           @  874,  877
`;
const text = `hoof 1

visit 2026-03-04
  film LF lateral "before.png"
${basis}
visit 2026-04-01
  film LF lateral "now.png"
${basis}`;
const proposal = (name: Proposal['name'], x: number, y: number, rest: Partial<Proposal> = {}): Proposal => ({
  name,
  at: { x, y },
  spread: 3.04,
  added: 1,
  distinct: true,
  by: 'patch',
  why: 'Its surroundings were found again.',
  ...rest,
});
/** Two lines, two joints, and of the sole what is never distinct. */
const proposals: readonly Proposal[] = [
  proposal('p3.dorsal.upper', 548, 778, { by: 'line' }),
  proposal('p3.dorsal.lower', 466, 905, { by: 'line' }),
  proposal('coffin.centre', 702, 735, { by: 'bone' }),
  proposal('pastern.centre', 860, 520, { by: 'bone' }),
  proposal('wall.upper', 470, 720, { by: 'line' }),
  proposal('wall.lower', 280, 950, { by: 'line' }),
  proposal('sole.tip', 440, 1010, { by: 'edge', distinct: false, why: 'It may be another edge.' }),
  // Not wanted by “rotation and sole”.
  proposal('wall.top', 500, 650),
];

function page() {
  const told: PageMessage[] = [];
  const model = new PageModel(freshState, {
    keep: () => undefined,
    tell: (one) => told.push(one),
    changed: () => undefined,
  });
  const message = sheetsMessage(text, { uri, version: 1 });
  const film = message.films.find(({ picture }) => picture === 'now.png');
  if (!film) throw new Error('no such film');
  model.heard(sheetsMessage(text, { uri, version: 1, cursor: film.line }));
  const sheet = () => {
    if (model.sheet?.picture !== 'now.png') throw new Error('no sheet');
    return model.sheet;
  };
  const { placing } = model;
  placing.open(sheet());
  const wishes = () => told.filter((one) => one.type === 'place');
  const live = () => placing.sheetOf(sheet());
  return {
    model,
    placing,
    sheet,
    live,
    wishes,
    step: () => placing.step(live())?.key ?? null,
    ghosts: () => placing.ghosts(live()).map(({ name }) => name),
    propose(): void {
      placing.seekProposals('k');
      placing.heardProposals('k', { proposals }, true);
    },
    written(): string {
      return wishes().reduce((before, wish) => {
        const made = placeOnFilm(inspect(before).tree, wish.film, wish.placements);
        if ('refused' in made) throw new Error(made.refused);
        return [...made.edits]
          .reverse()
          .reduce((t, edit) => t.slice(0, edit.start) + edit.text + t.slice(edit.end), before);
      }, text);
    },
    html(pictureBefore: string | null = 'before.png'): string {
      const found = { picture: { href: 'now.png', width: 1400, height: 1200 }, says: null, wait: false };
      const proposing = { before: model.shown.message?.before ?? null, pictureBefore };
      const view = h(PlacingView, { model: placing, sheet: sheet(), found, proposing, line: null, drawing: true, trouble: null }); // prettier-ignore
      return renderToString(h(ActionsContext.Provider, { value: bound(model), children: view }));
    },
  };
}

/** What a person reads. */
const words = (html: string): string =>
  html
    .replace(/<svg.*?<\/svg>/gs, ' ')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ');

describe('proposed places', () => {
  it('show for what is wanted and not placed, and stand in no measure', () => {
    const one = page();
    const measured = one.live().rows.map(({ measure }) => measure);
    one.propose();
    expect(one.ghosts()).toEqual(proposals.map(({ name }) => name).filter((name) => name !== 'wall.top'));
    expect(one.live().rows.map(({ measure }) => measure)).toEqual(measured);
    expect(Object.keys(one.live().placed)).toEqual(['p3.tip', 'p3.wing']);
    expect(one.wishes()).toEqual([]);
  });

  it('go with the question: the answer to an older one is nobody’s', () => {
    const one = page();
    one.placing.seekProposals('k');
    expect(one.placing.isSeeking).toBe(true);
    one.placing.heardProposals('older', { proposals }, true);
    expect([one.placing.isSeeking, one.ghosts()]).toEqual([true, []]);
    one.placing.heardProposals('k', { says: 'The film before lacks its scale.' }, true);
    expect([one.placing.isSeeking, one.placing.noProposals]).toEqual([false, 'The film before lacks its scale.']);
    one.propose();
    one.placing.seekProposals(null);
    expect(one.ghosts()).toEqual([]);
  });

  it('of bones that are distinct are confirmed by one press, as one undo step', () => {
    const one = page();
    one.propose();
    one.placing.confirmSure(one.sheet());
    expect(one.wishes()).toHaveLength(1);
    const bony = ['p3.dorsal.upper', 'p3.dorsal.lower', 'coffin.centre', 'pastern.centre'];
    expect(one.wishes()[0]?.placements.map((placed) => 'name' in placed && placed.name)).toEqual(bony);
    expect(one.ghosts()).toEqual(['wall.upper', 'wall.lower', 'sole.tip']);
    expect(one.step()).toBe('wall.upper');
    const after = one.written();
    expect(after).toContain('    coffin.centre     @  702,  735 +- 3 followed\n');
    expect(format(after)).toBe(after);
    // What the page measures meanwhile is what the text will say.
    const told = inspect(after).study.films.at(-1)?.readings[0]?.input.landmarks ?? [];
    expect(one.live().input.landmarks).toEqual(told);
  });

  it('on the capsule take a press each, and the walk goes on; both ends of a line are one', () => {
    const one = page();
    one.propose();
    one.placing.confirmSure(one.sheet());
    expect(one.placing.confirm(one.sheet(), 'wall.upper')).toBe(true);
    expect(one.wishes().at(-1)?.placements).toHaveLength(2);
    expect(one.step()).toBe('sole.tip');
    one.placing.confirm(one.sheet(), 'sole.tip');
    // The eye alone has told it: no finer than a hand, 0.5 mm, which are 2.5 px here, and never finer than was proposed.
    expect(one.written()).toMatch(/sole\.tip +@ {2}440, 1010 \+- 3 followed\n/);
    expect(one.step()).toBe('sole.wing');
    expect(one.placing.confirm(one.sheet(), 'sole.wing')).toBe(false);
  });

  it('in which two lines meet are placings of their own: they carry little of the error before on', () => {
    const one = page();
    one.placing.seekProposals('k');
    const corner = [proposal('heel.ground', 1000, 1023, { by: 'edge' }), proposal('toe.ground', 250, 1030)];
    one.placing.heardProposals('k', { proposals: corner }, true);
    for (const name of ['heel.ground', 'toe.ground']) {
      one.placing.choose(name);
      one.placing.confirm(one.sheet(), name);
    }
    expect(one.wishes().map(({ placements }) => placements[0])).toEqual([
      { kind: 'landmark', name: 'heel.ground', at: { x: 1000, y: 1023 }, spread: 3.04 },
      { kind: 'landmark', name: 'toe.ground', at: { x: 250, y: 1030 }, spread: 3.04, followed: true },
    ]);
  });

  it('that a hand moves are placings like others', () => {
    const one = page();
    one.propose();
    one.placing.choose('coffin.centre');
    one.placing.dragGhost('coffin.centre', { x: 710, y: 730 });
    expect(one.ghosts()).not.toContain('coffin.centre');
    one.placing.dropGhost(one.sheet());
    expect(one.written()).toMatch(/coffin\.centre +@ {2}710, {2}730\n/);
    expect(one.step()).toBe('pastern.centre');
    // And a confirmed one that is moved later is followed no more.
    one.placing.confirm(one.sheet(), 'pastern.centre');
    one.placing.pick(one.sheet(), 'pastern.centre');
    one.placing.nudge(one.sheet(), 2, 0);
    one.placing.drop(one.sheet());
    expect(one.written()).toMatch(/pastern\.centre +@ {2}862, {2}520\n/);
  });

  it('by a typical foot are only where to look, and its lines are no film’s before', () => {
    const one = page();
    one.placing.seekProposals('k');
    const typical = proposals.map((made) =>
      made.by === 'line' ? made : { ...made, by: 'typical' as const, distinct: false, why: 'A place to look.' },
    );
    one.placing.heardProposals('k', { proposals: typical }, false);
    one.placing.choose('coffin.centre');
    expect(one.placing.confirm(one.sheet(), 'coffin.centre')).toBe(false);
    expect(words(one.html())).toContain('A place to look. Drag the diamond, or click the right place.');
    expect(words(one.html())).not.toMatch(/Confirm (?:Back|Skip)/);
    one.placing.dragGhost('coffin.centre', { x: 1, y: 2 });
    one.placing.dropGhost(one.sheet());
    one.placing.confirm(one.sheet(), 'p3.dorsal.upper');
    expect(one.wishes().map(({ placements }) => placements)).toEqual([
      [{ kind: 'landmark', name: 'coffin.centre', at: { x: 1, y: 2 } }],
      [
        { kind: 'landmark', name: 'p3.dorsal.upper', at: { x: 548, y: 778 }, spread: 3.04 },
        { kind: 'landmark', name: 'p3.dorsal.lower', at: { x: 466, y: 905 }, spread: 3.04 },
      ],
    ]);
  });

  it('can be turned off', () => {
    const one = page();
    one.propose();
    one.placing.toggleProposals();
    expect(one.ghosts()).toEqual([]);
    expect(one.placing.ghostAsked(one.live())).toBeNull();
    one.placing.toggleProposals();
    expect(one.ghosts()).toHaveLength(7);
  });
});

describe('what the card says of proposals', () => {
  it('how one is confirmed, and offers those of the bones together', () => {
    const one = page();
    one.propose();
    const html = one.html();
    expect(words(html)).toContain('Confirm 4 on the bones as on 2026-03-04');
    expect(words(html)).toContain('confirms both ends');
    expect(words(html)).toMatch(/Confirm Back Skip|Confirm Skip/);
    one.placing.confirmSure(one.sheet());
    one.placing.confirm(one.sheet(), 'wall.upper');
    expect(words(one.html())).toContain('It may be another edge. Enter or a click on the diamond confirms it.');
    expect(words(one.html())).not.toContain('on the bones');
  });

  it('that it looks, and why it found nothing', () => {
    const one = page();
    one.placing.seekProposals('k');
    expect(words(one.html())).toContain('Looking for the places of 2026-03-04');
    one.placing.heardProposals('k', { says: 'Tip and wing lie 1.20 times as far apart.' }, true);
    expect(words(one.html())).toContain('1.20 times');
    one.placing.toggleProposals();
    expect(words(one.html())).not.toContain('1.20 times');
  });

  it('that the film before has no picture, or what has to be placed first', () => {
    const one = page();
    expect(words(one.html(null))).toContain('The picture of 2026-03-04 is not there, so nothing is proposed.');
    one.placing.seekProposals(null);
    one.placing.choose('coffin.centre');
    expect(words(one.html())).toContain('then the rest can be proposed');
    one.placing.choose('p3.tip');
    one.propose();
    expect(words(one.html())).not.toContain('then the rest can be proposed');
  });

  it('which places are proposed, in the list', () => {
    const one = page();
    one.propose();
    expect(one.html()).toMatch(/<li class="is-proposed" data-step="coffin\.centre">/);
    expect(one.html()).toMatch(/<li class="is-open" data-step="sole\.wing">/);
  });
});

describe('hand and keys on a proposed place', () => {
  class FakeElement {
    readonly #ghost: string | null;
    constructor(ghost: string | null) {
      this.#ghost = ghost;
    }
    closest(selector: string): { getAttribute(): string | null } | null {
      return selector === '[data-ghost]' && this.#ghost !== null ? { getAttribute: () => this.#ghost } : null;
    }
  }
  beforeEach(() => void vi.stubGlobal('Element', FakeElement));
  afterEach(() => void vi.unstubAllGlobals());

  type XY = { readonly x: number; readonly y: number };
  function hand() {
    const one = page();
    one.propose();
    const heard = new Map<string, (event: unknown) => void>();
    const holder = {
      addEventListener: (name: string, hears: (event: unknown) => void) => heard.set(name, hears),
      setPointerCapture: () => undefined,
      getBoundingClientRect: () => ({ left: 0, top: 0 }),
      classList: { add: () => undefined, remove: () => undefined },
    };
    const stage = {
      model: one.placing,
      ghostAtCross: null as string | null,
      isSteered: false,
      cross: { x: 5, y: 5 },
      get shown() {
        return { sheet: one.sheet(), live: one.live() };
      },
      plain: (at: XY) => at,
      aimed: (at: XY) => at,
      within: (at: XY) => at,
      hover: () => undefined,
      focus: () => undefined,
      soon: () => undefined,
    };
    const made = stage as unknown as PlacingStage;
    layHand(holder as unknown as HTMLElement, made);
    const event = ({ x, y }: XY, on: string | null, timeStamp = NaN) => ({ timeStamp, pointerId: 1, pointerType: 'mouse', button: 0, clientX: x, clientY: y, altKey: false, target: new FakeElement(on), preventDefault: () => undefined, stopPropagation: () => undefined }); // prettier-ignore
    return {
      ...one,
      stage,
      press(from: XY, on: string | null, to: XY = from, at = NaN): void {
        heard.get('pointerdown')?.(event(from, on, at));
        if (to !== from) heard.get('pointermove')?.(event(to, on, at));
        heard.get('pointerup')?.(event(to, on, at));
      },
      key: (key: string, on: string | null = null, repeat = false) =>
        keyPressed({ ...event({ x: 0, y: 0 }, on), key, repeat } as unknown as KeyboardEvent, made),
    };
  }

  it('a click confirms, with the place as it was proposed', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.press({ x: 705, y: 731 }, 'coffin.centre');
    expect(one.wishes().at(-1)?.placements).toEqual([
      { kind: 'landmark', name: 'coffin.centre', at: { x: 702, y: 735 }, spread: 3.04, followed: true },
    ]);
  });

  it('a click on a place that is only where to look places by hand', () => {
    const one = hand();
    const typical = proposals.map((made) => ({ ...made, by: 'typical' as const, distinct: false }));
    one.placing.heardProposals('k', { proposals: typical }, false);
    one.placing.choose('coffin.centre');
    one.press({ x: 705, y: 731 }, 'coffin.centre');
    expect(one.wishes().at(-1)?.placements).toEqual([
      { kind: 'landmark', name: 'coffin.centre', at: { x: 705, y: 731 } },
    ]);
  });

  it('a drag corrects: by as much as the pointer went', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.press({ x: 705, y: 731 }, 'coffin.centre', { x: 725, y: 741 });
    expect(one.wishes().at(-1)?.placements).toEqual([
      { kind: 'landmark', name: 'coffin.centre', at: { x: 722, y: 745 } },
    ]);
  });

  it('a click beside it places by hand', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.press({ x: 720, y: 750 }, null);
    expect(one.wishes().at(-1)?.placements).toEqual([
      { kind: 'landmark', name: 'coffin.centre', at: { x: 720, y: 750 } },
    ]);
  });

  it('Enter confirms what the cross stands on, and places where the cross was moved', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.stage.ghostAtCross = 'coffin.centre';
    one.key('Enter');
    expect(one.wishes().at(-1)?.placements[0]).toMatchObject({ name: 'coffin.centre', at: { x: 702, y: 735 } });
    one.stage.ghostAtCross = null;
    // Nobody has looked there: the cross stands where the place is looked for.
    const before = one.wishes().length;
    one.key('Enter');
    expect([one.wishes().length, one.placing.says]).toEqual([
      before,
      'Move the cross to the place with the arrow keys, then press Enter.',
    ]);
    one.stage.isSteered = true;
    one.key('Enter');
    expect(one.wishes().at(-1)?.placements).toEqual([{ kind: 'landmark', name: 'pastern.centre', at: { x: 5, y: 5 } }]);
  });

  it('a key that is held is one press', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.stage.ghostAtCross = 'coffin.centre';
    one.key('Enter', null, true);
    one.key('c', null, true);
    expect(one.wishes()).toEqual([]);
  });

  it('the second press of a double click does nothing of its own', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.press({ x: 702, y: 735 }, 'coffin.centre', undefined, 1000);
    one.press({ x: 703, y: 735 }, null, undefined, 1200);
    expect(one.wishes()).toHaveLength(1);
    one.press({ x: 703, y: 735 }, null, undefined, 1900);
    expect(one.wishes().at(-1)?.placements).toEqual([
      { kind: 'landmark', name: 'pastern.centre', at: { x: 703, y: 735 } },
    ]);
  });

  it('while it is dragged it is what the glass looks at', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.placing.dragGhost('coffin.centre', { x: 711, y: 722 });
    expect(one.placing.handleAt(one.sheet())).toEqual({ x: 711, y: 722 });
    one.placing.dropGhost(one.sheet());
    expect(one.placing.selected).toBeNull();
  });

  it('takes no press while something is in the hand', () => {
    const one = hand();
    one.placing.pick(one.sheet(), 'p3.tip');
    one.press({ x: 702, y: 735 }, 'coffin.centre');
    expect([one.wishes(), one.placing.selected]).toEqual([[], null]);
  });

  it('and what was skipped is not confirmed with the others', () => {
    const one = hand();
    one.placing.choose('coffin.centre');
    one.placing.skip(one.live());
    one.key('c');
    expect(one.wishes()[0]?.placements.map((made) => 'name' in made && made.name)).not.toContain('coffin.centre');
    expect(one.wishes()[0]?.placements).toHaveLength(3);
  });

  it('Enter on one that the Tab key came to confirms that one; C all of the bones', () => {
    const one = hand();
    one.key('Enter', 'sole.tip');
    expect(one.wishes().at(-1)?.placements[0]).toMatchObject({ name: 'sole.tip', followed: true });
    one.key('c');
    expect(one.wishes().at(-1)?.placements).toHaveLength(4);
    const count = one.wishes().length;
    one.key('c');
    expect(one.wishes()).toHaveLength(count);
  });
});
