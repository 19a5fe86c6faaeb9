import { readFileSync } from 'node:fs';
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { filmKey } from '../../shared/views/film-choice.ts';
import { filmOver, laidFilm, normalOver } from '../../shared/views/laid-over.ts';
import { listedFilms } from '../../shared/views/listed-films.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import type { JudgedAnimal } from '../../shared/reference/bands.ts';
import { NORMAL, OverChoice, OverNotes, overOn } from '../../src/preview/over-choice.tsx';
import { nodes, readXml } from './drawing-help.ts';

const text = readFileSync(new URL('../../examples/juniper.hoof', import.meta.url), 'utf8');
const inspection = inspect(text);
const [first, second] = filmSheets(inspection);
if (!first || !second) throw new Error('the example has fewer than two films');
const { animal } = inspection.study;
const films = listedFilms(inspection).map(({ listed }) => listed);

function drawn(over: ReturnType<typeof normalOver>) {
  const scene = drawPlate({ ...plateOf(first!, null), labels: [], over: over.over });
  const layer = scene.layers.find(({ data }) => data?.layer === 'over');
  if (!layer) throw new Error('no layer for the other foot');
  return { scene, all: nodes(layer) };
}

describe('a foot laid over a film', () => {
  it.each([
    ['a normal foot', normalOver(first, animal)],
    ['another film', filmOver(first, second)],
  ])('%s shares the coffin joint and the axis of P2', (_, { over }) => {
    const coffin = over?.placed.get('coffin.centre');
    const pastern = over?.placed.get('pastern.centre');
    const own = [first.placed['coffin.centre'], first.placed['pastern.centre']];
    if (!coffin || !pastern || !own[0] || !own[1]) throw new Error('joints are missing');
    expect(Math.hypot(coffin.x - own[0].x, coffin.y - own[0].y)).toBeLessThan(1e-9);
    const slope = (a: { x: number; y: number }, b: { x: number; y: number }) => Math.atan2(b.y - a.y, b.x - a.x);
    expect(slope(coffin, pastern)).toBeCloseTo(slope(own[0], own[1]), 9);
  });

  it('is drawn dashed, the difference hatched, the largest distance written in millimetres', () => {
    const { scene, all } = drawn(filmOver(first, second));
    expect(all.filter((node) => node.classes?.includes('over-line')).every((node) => 'dash' in node && node.dash)).toBe(
      true,
    );
    expect(all.some((node) => node.classes?.includes('over-hatch'))).toBe(true);
    const words = all.flatMap((node) => (node.kind === 'text' ? node.runs.map((run) => run.text) : []));
    expect(words).toHaveLength(1);
    const [, name = '', mm = ''] = /^(\S+) ([\d.]+) mm apart$/.exec(words[0] ?? '') ?? [];
    const other = filmOver(first, second).over?.placed.get(name);
    const own = first.placed[name];
    if (!other || !own) throw new Error(`${words[0]} names no landmark`);
    expect(Number(mm)).toBeCloseTo(Math.hypot(own.x - other.x, own.y - other.y) * (first.scale ?? NaN), 1);
    expect(() => readXml(sceneToSvg(scene))).not.toThrow();
    expect(scene.description).toContain(`Laid over: ${second.title}.`);
  });

  it('differs nowhere from itself', () => {
    const { all } = drawn(filmOver(first, first));
    const words = all.flatMap((node) => (node.kind === 'text' ? node.runs.map((run) => run.text) : []));
    expect(words.every((word) => word.endsWith(' 0.0 mm apart'))).toBe(true);
  });

  it.each(['donkey', 'mule', 'hinny', null] as const)(
    'is of the animal’s own kind: nothing of a horse over %s',
    (kind) => {
      const { over, says } = normalOver(first, { kind, heightMm: 1100 });
      expect(over).toBeNull();
      expect(says).toMatch(/normal foot/);
      expect(filmOver(first, second).over).not.toBeNull();
    },
  );

  it('is offered in the list where there is one of the animal’s kind; else a sentence below the plate says why not', () => {
    const shown = (kind: JudgedAnimal['kind'], chosen: string | null = null) => {
      const own = { kind, heightMm: 1100 };
      const laid = overOn(first, chosen, { films, over: null, animal: own });
      return {
        list: renderToString(h(OverChoice, { sheet: first, films, chosen, animal: own })),
        below: renderToString(h(OverNotes, { laid, sheet: first, animal: own })),
      };
    };
    for (const kind of ['horse', 'pony'] as const) {
      expect(shown(kind).list).toContain('a normal foot of this size');
      expect(shown(kind).below).toBe('');
    }
    // Chosen for another case, as the page keeps it: the same sentence, once.
    for (const chosen of [null, NORMAL]) {
      const { list, below } = shown('donkey', chosen);
      expect(list).not.toContain('a normal foot of this size');
      expect(list).toContain(second.title);
      expect(below.match(/There is no normal foot to lay over a donkey’s/g)).toHaveLength(1);
    }
  });

  it('stays where another is chosen, until that one comes; and goes with the choice', () => {
    const [, , third] = films;
    if (!third) throw new Error('the example has fewer than three films');
    const words = (chosen: string | null, over: typeof first | null, sheet = first): string | undefined =>
      overOn(sheet, chosen, { films, over: over && laidFilm(over), animal })?.over?.words;
    expect(words(filmKey(second), second)).toBe(second.title);
    // The page has not been sent the third yet.
    expect(words(filmKey(third), second)).toBe(second.title);
    expect(words(filmKey(second), null)).toBeUndefined();
    expect(words(null, second)).toBeUndefined();
    expect(words('gone', second)).toBeUndefined();
    // The film that is laid over is the one that is shown now.
    expect(words(filmKey(second), second, second)).toBeUndefined();
  });

  it('says what would have to be placed, or that a scale is missing', () => {
    const { 'coffin.centre': _coffin, ...placed } = first.placed;
    expect(normalOver({ ...first, placed }, animal).says).toMatch(/^Place coffin\.centre: /);
    expect(filmOver(first, { ...second, scale: null }).says).toMatch(/2026-03-31: Give the film a scale/);
    expect(normalOver({ ...first, view: 'solar' }, animal).says).toMatch(/lateral view only/);
  });
});
