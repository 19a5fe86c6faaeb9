import Flatten from '@flatten-js/core';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { handedPage } from '../../shared/report/pages/handed-page.ts';
import { predictAtOnce } from '../../shared/trim/predict.ts';
import type { StudiedCut } from '../../shared/trim/study.ts';
import { penLine, standingPlaces, type PenLine } from '../../shared/views/pen-line.ts';
import { caseText, filmText, soundFoot, type Places } from './plain-foot.ts';

/** The one plan of a case, on its foot as it stands. */
function planOf(lines: string, { places = {}, before = '' }: { places?: Places; before?: string } = {}): StudiedCut {
  const body = `${filmText(places)}\n${before}\n  plan LF\n${lines
    .split(', ')
    .map((line) => `    ${line}`)
    .join('\n')}`;
  const cut = inspect(caseText(body)).study.cuts.find((one) => one.cut.kind === 'plan');
  if (!cut) throw new Error('there is a plan');
  return cut;
}

const lineOf = ({ foot, size }: StudiedCut): PenLine | null => foot && penLine(foot, size);

describe('the line to draw on the hoof', () => {
  it('meets the wall where a ruler on paper says', () => {
    // Heel (-110, 0), wall to (-128, 20); toe (28, 0). The plane rises by 6 over 138; the wall meets it at
    // 20 s = 6 + 18 s · 6/138, s = 0.3122, so 6.244 high. Midway between the contacts, 69 from each, it is 3 high.
    const line = lineOf(planOf('heel down 6 mm'));
    expect(line?.heel).toBeCloseTo(6.2443, 3);
    expect(line?.quarter).toBeCloseTo(3, 6);
    expect(line?.toe).toBeCloseTo(0, 6);
  });

  it('stands where the plan says where the wall is upright', () => {
    const line = lineOf(
      planOf('heel down 6 mm, toe down 2 mm', { places: { 'heel.upper': [-110, 30], 'wall.lower': [28, 17] } }),
    );
    expect([line?.heel, line?.quarter, line?.toe].map((mm) => mm?.toFixed(6))).toEqual([
      '6.000000',
      '4.000000',
      '2.000000',
    ]);
  });

  it('ends at the new toe where that comes back, and bends where the heel has a plane of its own', () => {
    const back = lineOf(planOf('heel down 4 mm, toe back 5 mm'));
    expect(back?.line.at(-1)).toEqual({ x: expect.closeTo(23, 6), y: expect.closeTo(0, 6) });
    expect([back?.toe, back?.toeBack]).toEqual([expect.closeTo(0, 6), 5]);
    const bent = lineOf(planOf('heel down 4 mm from 40 mm'));
    // The bend lies 40 before the heel; what lies in front of it stays, the middle of the foot too.
    expect(bent?.bendFrom).toBeCloseTo(40, 6);
    expect(bent?.quarter).toBeCloseTo(0, 6);
    expect(bent?.line[1]).toEqual({ x: expect.closeTo(-70, 6), y: expect.closeTo(0, 6) });
  });

  it('is none where nothing is cut, where a side comes down by itself, and without a scale', () => {
    expect(lineOf(planOf('leave toe'))).toBeNull();
    expect(lineOf(planOf('heel down 2 mm, inside down 1 mm'))).toBeNull();
    const cut = planOf('heel down 2 mm');
    expect(lineOf(cut)).not.toBeNull();
    const body = `${filmText({}, { scale: null })}\n  plan LF\n    heel down 2 mm`;
    const [unscaled] = inspect(caseText(body)).study.cuts;
    expect(unscaled?.foot && penLine(unscaled.foot, unscaled.size)).toBeNull();
  });

  /** By flatten-js: the plane through the two marks alone, and what the heel's contact loses to it. */
  const cuts = [
    'heel down 1.5 mm',
    'heel down 5 mm',
    'heel down 8 mm, toe down 2 mm',
    'toe down 3 mm',
    'heel down 7 mm',
  ];
  it.each(cuts)('cut at its marks leaves what the plan foretells: %s', (lines) => {
    const cut = planOf(lines);
    const line = lineOf(cut);
    const [from, to] = [line?.line[0], line?.line.at(-1)];
    if (!cut.foot || !from || !to) throw new Error('there is a line');
    const plane = new Flatten.Line(new Flatten.Point(from.x, from.y), new Flatten.Point(to.x, to.y));
    const heightAt = (place: readonly [number, number] | undefined): number => {
      const [met] = plane.intersect(new Flatten.Line(new Flatten.Point(place?.[0] ?? 0, 0), new Flatten.Vector(1, 0)));
      return met?.y ?? NaN;
    };
    const done = {
      heelDown: heightAt(soundFoot['heel.ground']),
      toeDown: heightAt(soundFoot['toe.ground']),
      toeBack: 0,
    };
    expect(done.heelDown).toBeCloseTo(cut.size.heelDown, 6);
    const foretold = predictAtOnce(cut.foot, cut.size);
    const found = predictAtOnce(cut.foot, done);
    for (const name of ['palmar-angle', 'sole-depth.tip', 'sole-depth.wing'] as const)
      expect(found?.value(name)?.value).toBeCloseTo(foretold?.value(name)?.value ?? NaN, 6);
    // By hand: the angle of the plane to the ground is what the bone turns by.
    const turn = (Math.atan2(cut.size.heelDown - cut.size.toeDown, 138) * 180) / Math.PI;
    expect(foretold?.delta).toBeCloseTo(turn, 6);
  });

  it('is drawn on the foot as it stands since the film', () => {
    const before = '  trim LF\n    heel down 3 mm\n';
    const cut = planOf('heel down 2 mm', { before });
    if (!cut.foot) throw new Error('there is a foot');
    // The foot stands on the plane of the trim, from (-110, 3) to (28, 0): both contacts are on its ground again.
    const places = standingPlaces(cut.foot);
    expect(places?.get('heel.ground')?.y).toBeCloseTo(0, 6);
    expect(places?.get('toe.ground')?.y).toBeCloseTo(0, 6);
    const apart = (places?.get('toe.ground')?.x ?? NaN) - (places?.get('heel.ground')?.x ?? NaN);
    expect(apart).toBeCloseTo(Math.hypot(138, 3), 6);
    expect(lineOf(cut)?.quarter).toBeCloseTo(1, 6);
  });
});

describe('the page for the yard is true to size', () => {
  const text = readFileSync(join(import.meta.dirname, '..', '..', 'examples', 'juniper.hoof'), 'utf8');
  const inspection = inspect(text);
  const page = handedPage('yard', { inspection, pictures: new Map(), date: '2026-05-28', names: false });
  const [, svg = ''] = /<figure class="true-size[^>]*>(<svg[^]*?<\/svg>)/.exec(page) ?? [];
  const numbers = (pattern: RegExp): number[] => [...(pattern.exec(svg) ?? [])].slice(1).map(Number);

  it('a unit of the drawing is a millimetre of the sheet, and it fits A4 and Letter', () => {
    const [width, height] = numbers(/ width="([\d.]+)mm" height="([\d.]+)mm"/);
    const [, , boxWidth, boxHeight] = numbers(/viewBox="([-\d.]+) ([-\d.]+) ([\d.]+) ([\d.]+)"/);
    expect([width, height]).toEqual([boxWidth, boxHeight]);
    // 210 less two margins of 13.
    expect(width).toBeLessThan(184);
  });

  it('the bar is 100 mm long', () => {
    const [from, y1, to, y2] = numbers(/data-part="bar"[^>]* d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)"/);
    expect(y1).toBe(y2);
    expect((to ?? 0) - (from ?? 0)).toBeCloseTo(100, 6);
  });

  it('the drawn line and the written heights are the foretold ones, to 0.1 mm', () => {
    const cut = inspection.study.cuts.findLast((one) => one.cut.kind === 'plan');
    const line = cut && lineOf(cut);
    if (!cut?.foot || !line) throw new Error('there is a line');
    // Both ways: down the page is up from the ground.
    const [, heel, , toe] = numbers(/data-part="pen"[^>]* d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)"/);
    expect(Math.abs(-(heel ?? NaN) - line.heel)).toBeLessThan(0.05);
    expect(Math.abs(-(toe ?? NaN) - line.toe)).toBeLessThan(0.05);
    for (const [name, mm] of [
      ['heel', line.heel],
      ['quarter', line.quarter],
      ['toe', line.toe],
    ] as const)
      expect(page).toContain(`<li>${name} <strong>${mm.toFixed(1)} mm</strong></li>`);
  });

  it('the toe points as it is seen from the outer side: of a left foot to the left', () => {
    const [heel, , toe] = numbers(/data-part="pen"[^>]* d="M([-\d.]+) ([-\d.]+)L([-\d.]+) ([-\d.]+)"/);
    expect(toe).toBeLessThan(heel ?? NaN);
    const right = inspect(text.replaceAll(' LF', ' RF'));
    const other = handedPage('yard', { inspection: right, pictures: new Map(), date: '2026-05-28', names: false });
    const [, x1 = '', x2 = ''] = /data-part="pen"[^>]* d="M([-\d.]+) [-\d.]+L([-\d.]+) /.exec(other) ?? [];
    expect(Number(x2)).toBeGreaterThan(Number(x1));
  });
});
