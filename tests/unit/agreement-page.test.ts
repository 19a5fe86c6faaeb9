import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { agreementOf } from '../../shared/agreement/agreement.ts';
import { ReadFilms, takenFilms } from '../../shared/agreement/read-films.ts';
import { readFrom, toldReadings } from '../../shared/agreement/told-readings.ts';
import { drawDifferences } from '../../shared/drawing/agreement/difference-plot.ts';
import { drawScatter } from '../../shared/drawing/agreement/scatter-foot.ts';
import { widthInEm } from '../../shared/drawing/plate/lettering.ts';
import type { GroupNode, Scene, SceneNode, TextNode } from '../../shared/drawing/scene.ts';
import { sceneToSvg } from '../../shared/drawing/svg.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { agreementSheet, type ReadingPair } from '../../shared/views/agreement-sheet.ts';
import { AgreementView } from '../../src/preview/agreement/agreement-view.tsx';
import { readHostMessage } from '../../src/messages/messages.ts';
import { readingsMessage, sheetsMessage } from '../told-page.ts';
import { ViewSwitch } from '../../src/preview/view-switch.tsx';

const text = readFileSync(join(import.meta.dirname, '..', 'agreement', 'three-readers.hoof'), 'utf8');
const message = readingsMessage(text);
const sheet = agreementSheet(message);
const angle = sheet.measures.find(({ key }) => key === 'film palmar-angle');
const plain = (html: string): string => html.replaceAll(/<[^>]*>/g, ' ').replaceAll(/\s+/g, ' ');
const choice = { of: 'case', all: false, measure: null, pair: null } as const;
const { type: _type, uri: _uri, ...readings } = message;
const view = { readings, caseName: 'Alder', choice, said: null };

const nodesOf = (nodes: readonly SceneNode[], name: string): SceneNode[] =>
  nodes.flatMap((node) => [
    ...(node.classes?.includes(name) ? [node] : []),
    ...(node.kind === 'group' ? nodesOf(node.children, name) : []),
  ]);
const everyText = (nodes: readonly SceneNode[]): TextNode[] =>
  nodes.flatMap((node) => (node.kind === 'text' ? [node] : node.kind === 'group' ? everyText(node.children) : []));
const inScene = ({ layers }: Scene, name: string): SceneNode[] => nodesOf(layers, name);

describe('agreement on the page', () => {
  it('is of the same numbers as on the command line, through the message and its check', () => {
    const films = new ReadFilms();
    films.add('', takenFilms(inspect(text).study.films));
    const passed = readHostMessage(JSON.parse(JSON.stringify(message)));
    expect(passed).toEqual(message);
    const told = readFrom(toldReadings(films.all()));
    const plainly = (read: Parameters<typeof agreementOf>[0]): unknown =>
      JSON.parse(JSON.stringify(agreementOf(read), (key, value: unknown) => (key === 'film' ? null : value)));
    expect(plainly(told)).toEqual(plainly(films.all()));
    expect(readHostMessage({ ...message, films: [{ ...message.films[0], view: 'above' }] })).toBeNull();
  });

  it('says the figures that R makes of them, what is unbalanced, and one person’s own', () => {
    // R 4.2.2 with psych 2.2.9, as in agree-command.test.ts.
    expect(angle?.figures.slice(0, 2)).toEqual([
      { label: 'Any reader, ICC(2,1)', text: '0.970', also: '(0.849 to 0.997)' },
      { label: 'These readers, ICC(3,1)', text: '0.980', also: '(0.904 to 0.998)' },
    ]);
    const said = plain(renderToString(h(AgreementView, view)));
    expect(said).toContain('6 films read by the unnamed reader, Ash, Rowan; 6 by two or more');
    expect(said).toContain('Not everybody read every film: the correlations are of the 5 films that');
    expect(said).toContain('Rowan again: standard deviation 0.41°');
    expect(said).toMatch(/Palmar angle films: the unnamed reader 6, Rowan 6, Ash 5 0\.970 \(0\.849 to 0\.997\)/);
    expect(said).toMatch(/Tip of the pedal bone 0\.64 by 0\.37 mm at −75° 17 placings, 6 films/);
    const all = plain(renderToString(h(AgreementView, { ...view, choice: { ...choice, all: true } })));
    expect(sheet.measures.length).toBeGreaterThan(sheet.first.length);
    for (const { words } of sheet.measures) expect(all).toContain(words);
  });

  it('shows the pair and the measure that are chosen, one person’s two times among them', () => {
    const pairs = angle?.pairs.map(({ words }) => words);
    expect(pairs).toEqual([
      'the unnamed reader less Rowan',
      'the unnamed reader less Ash',
      'Rowan less Ash',
      'Rowan, first time less second time',
    ]);
    const chosen = renderToString(
      h(AgreementView, {
        ...view,
        choice: { ...choice, measure: 'film toe-length', pair: angle?.pairs[1]?.key ?? null },
      }),
    );
    expect(chosen).toMatch(/aria-label="Toe length: the unnamed reader less Ash\. Bias [^"]*95 % limits/);
  });

  it('can be read and moved by the keyboard: a slider that says the film at its place', () => {
    const html = renderToString(h(AgreementView, view));
    expect(html).toMatch(/role="slider"[^>]* tabindex="0"/i);
    expect(html).toMatch(/aria-valuemax="6"[^>]*aria-valuenow="1"/);
    expect(html).toMatch(/aria-valuetext="2026-\d\d-\d\d, left fore: \d+\.\d\d°, difference [−+]?\d/);
  });

  it('is offered where a film has been read more than once, and says where nothing can be compared', () => {
    const switchOf = (isReadAgain: boolean) => plain(renderToString(h(ViewSwitch, { view: 'film', isReadAgain })));
    expect(switchOf(true)).toContain('Agreement');
    expect(switchOf(false)).not.toContain('Agreement');
    const [header, first = ''] = text.split(/(?=^visit )/m);
    const once = `${header}${first.replaceAll(/^ {4}read [\s\S]*/gm, '')}`;
    const { type: _kind, ...alone } = readingsMessage(once);
    expect(plain(renderToString(h(AgreementView, { ...view, readings: alone })))).toContain(
      'Nothing can be compared: it takes two readings of one film.',
    );
    expect(sheetsMessage(text).films.length).toBeGreaterThan(6);
  });
});

const pairOf = (words: string): ReadingPair => angle?.pairs.find((one) => one.words === words) as ReadingPair;

describe('the plot of differences', () => {
  const { plot } = pairOf('the unnamed reader less Ash');
  it.each([480, 900])('has a ring for each film where its mean and difference are, at %i pixels', (width) => {
    const { scene, stops } = drawDifferences({ ...plot, width });
    expect(inScene(scene, 'film-point')).toHaveLength(plot.points.length);
    // Two films give the scale; every other one and the lines must lie on it.
    const [first, last] = [0, plot.points.length - 1];
    const at = (key: 'mean' | 'difference', pixel: 'x' | 'y', value: number): number => {
      const [a, b] = [plot.points[first], plot.points[last]];
      const share = (value - (a?.[key] ?? 0)) / ((b?.[key] ?? 0) - (a?.[key] ?? 0));
      return (stops[first]?.[pixel] ?? 0) + share * ((stops[last]?.[pixel] ?? 0) - (stops[first]?.[pixel] ?? 0));
    };
    plot.points.forEach(({ mean, difference }, index) => {
      expect(stops[index]?.x).toBeCloseTo(at('mean', 'x', mean), 6);
      expect(stops[index]?.y).toBeCloseTo(at('difference', 'y', difference), 6);
    });
    const [bias] = inScene(scene, 'bias-band') as GroupNode[];
    const line = bias?.children.at(-1);
    expect(line?.kind === 'line' && line.from.y).toBeCloseTo(at('difference', 'y', plot.bias.value), 6);
    const [upper, lower] = inScene(scene, 'limit-band') as GroupNode[];
    for (const [limit, estimate] of [
      [upper, plot.upper],
      [lower, plot.lower],
    ] as const) {
      const [dashed] = limit?.children ?? [];
      expect(dashed?.kind === 'line' && dashed.from.y).toBeCloseTo(at('difference', 'y', estimate.value), 6);
    }
    // No word runs off the drawing.
    const letters = everyText(scene.layers);
    expect(letters.length).toBeGreaterThan(12);
    for (const { at: place, size, anchor, runs } of letters) {
      const wide = widthInEm(runs.map(({ text: said }) => said).join('')) * size;
      const left = place.x - (anchor === 'start' ? 0 : anchor === 'end' ? wide : wide / 2);
      expect(left, runs[0]?.text).toBeGreaterThanOrEqual(0);
      expect(left + wide, runs[0]?.text).toBeLessThanOrEqual(width + 1);
    }
    expect(sceneToSvg(scene)).toContain(`aria-label="${plot.title}. Bias`);
  });

  it('has a line of growth where that is clear, and none where not', () => {
    expect(inScene(drawDifferences({ ...plot, width: 800 }).scene, 'growth')).toEqual([]);
    const grows = drawDifferences({ ...plot, growth: 0.5, width: 800 });
    expect(inScene(grows.scene, 'growth')).toHaveLength(1);
  });

  it('stands two films, and values that are all the same', () => {
    const same = { value: 0, low: 0, high: 0, words: 'bias 0', interval: '(0 to 0)' };
    const points = [1, 1].map((mean) => ({ mean, difference: 0, words: 'a film' }));
    const { scene } = drawDifferences({ ...plot, points, bias: same, lower: same, upper: same, width: 480 });
    expect(sceneToSvg(scene)).not.toMatch(/NaN|Infinity/);
    const wide = { ...same, low: -400, high: 400 };
    expect(sceneToSvg(drawDifferences({ ...plot, lower: wide, width: 480 }).scene)).not.toMatch(/NaN|Infinity/);
  });
});

describe('the ellipses on the foot', () => {
  const [scatter] = sheet.scatters;
  const draw = (times: number): Scene =>
    drawScatter({
      foot: scatter!.foot,
      axes: scatter!.axes,
      ellipses: scatter!.rows,
      times,
      highlight: 'p3.tip',
      title: '',
      description: '',
    });
  /** The points that a path goes through, as they lie from its landmark, mm. */
  const reach = (scene: Scene, name: string, landmark: string): number[] => {
    const at = scatter!.foot.placed.get(landmark)!;
    const [group] = (inScene(scene, 'scatter')[0] as GroupNode).children.filter(
      (one) => one.data?.landmark === landmark,
    );
    const [path] = nodesOf([group as SceneNode], name);
    if (path?.kind !== 'path') throw new Error('no path');
    return path.segments.flatMap((s) =>
      s[0] === 'C' ? [Math.hypot(s[5] - at.x, s[6] - at.y) * scatter!.foot.scale] : [],
    );
  };

  it('are as large as their standard deviations, and the outer ones hold 95 of 100', () => {
    for (const { landmark, long, short } of scatter!.rows) {
      const [across = 0, along = 0] = reach(draw(1), 'one-sd', landmark);
      expect(along).toBeCloseTo(long, 9);
      expect(across).toBeCloseTo(short, 9);
      // √ of the 95 % point of chi-square with two degrees of freedom, 5.991 in any table of it.
      expect(reach(draw(1), 'most', landmark)[1]).toBeCloseTo(Math.sqrt(5.991465) * long, 5);
      expect(reach(draw(5), 'one-sd', landmark)[1]).toBeCloseTo(5 * long, 9);
    }
    expect(inScene(draw(1), 'is-lit')).toHaveLength(1);
  });

  it('lie as the foot lies on its film: the contacts along the ground', () => {
    const flat = scatter!.rows.find(({ landmark }) => landmark === 'heel.ground');
    expect(flat?.short).toBeCloseTo(0, 6);
    expect(flat?.text).toMatch(/ by 0\.00 mm at 0°/);
    expect(scatter!.rows.length).toBe(13);
  });
});
