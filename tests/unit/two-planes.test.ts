import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlay-hints.ts';
import { drawPlate } from '../../shared/drawing/plate/plate.ts';
import { heelInPlan } from '../../shared/edits/heel-in-plan.ts';
import { measuredCase } from '../../shared/export/measured.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { atEnd } from '../../shared/findings/limits/plan-place.ts';
import { planAt } from '../../shared/findings/limits/planning.ts';
import { format } from '../../shared/notation/format.ts';
import { cutWords, filmSheets } from '../../shared/views/film-sheet.ts';
import { triedCut } from '../../shared/views/live-sheet.ts';
import { plateOf } from '../../shared/views/plate-of.ts';
import { turnWords } from '../../shared/views/cut-outcome.ts';
import { commandLine } from '../../src/cli/command-line.ts';
import { filmSheetSchema } from '../../src/messages/messages.ts';
import { nodes } from './drawing-help.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

/**
 * The plain foot: heel contact (-110, 0), toe contact (28, 0), tip of the bone (0, 16), wing (-80, 23). Its sole is set high enough that
 * a bevel has room. What stands here as a number is worked out by hand with atan2 and the two lines.
 */
const places: Places = { 'sole.heel': [-104, 12], 'sole.wing': [-80, 9], 'sole.tip': [0, 2] };
const degrees = 180 / Math.PI;
const palmar = Math.atan2(7, 80) * degrees;
const text = (lines: string, more: Places = {}, kind = 'plan'): string =>
  caseText(`${filmText({ ...places, ...more })}\n\n  ${kind} LF\n    ${lines.split('; ').join('\n    ')}`);
const cutOf = (source: string) => {
  const [cut] = inspect(source).study.cuts;
  if (!cut) throw new Error('no cut');
  return cut;
};
const predicted = (lines: string, more: Places = {}) => {
  const { prediction } = cutOf(text(lines, more));
  if (!prediction) throw new Error('not predicted');
  return prediction;
};
const codes = (source: string): string[] =>
  inspect(source)
    .findings.filter(({ code }) => code.startsWith('trim/'))
    .map(({ code }) => code);

describe('`heel down … from …`', () => {
  it('is read, in any unit of length, and laid out', () => {
    const source = text('heel down 8 mm from 6 cm');
    expect(inspect(source).study.cuts[0]?.size).toMatchObject({ heelDown: 8, heelFrom: 60 });
    expect(inspect(source).findings.filter(({ code }) => /^(notation|record)\//.test(code))).toEqual([]);
    expect(format(source.replace('heel down 8 mm', 'heel   down 8mm'))).toContain('    heel  down 8 mm from 6 cm\n');
    expect(cutWords(cutOf(source))).toBe('heel down 8 mm from 6 cm');
  });

  it('says where a half of it is missing, and a place out of its range breaks the line', () => {
    const told = (lines: string) => inspect(text(lines)).findings.map(({ code }) => code);
    expect(told('heel down 8 mm from')).toContain('notation/missing-argument');
    expect(told('heel down 8 mm from 60')).toContain('notation/missing-unit');
    expect(told('heel down 8 mm from 600 mm')).toContain('notation/number-range');
    expect(cutOf(text('heel down 8 mm from 600 mm')).size).toEqual({ heelDown: 0, toeDown: 0, toeBack: 0 });
  });
});

describe('a foot on two planes', () => {
  it('on its heels turns by atan2(heel, from), on its toe by nothing', () => {
    const one = predicted('heel down 4 mm from 60 mm');
    const turn = Math.atan2(4, 60) * degrees;
    expect(one.delta).toBeCloseTo(turn, 9);
    expect(one.value('palmar-angle')?.value).toBeCloseTo(palmar - turn, 9);
    expect(one.onToe?.delta).toBe(0);
    expect(one.onToe?.value('palmar-angle')?.value).toBeCloseTo(palmar, 9);
    expect(one.onToe?.value('wall-angle')?.value).toBeCloseTo(
      cutOf(text('leave toe')).before?.get('wall-angle')?.value ?? NaN,
      9,
    );
    expect(one.onToe?.onToe).toBeNull();
  });

  it('has its heel contact on the ground or in the air, and rolls over the bend or over its toe', () => {
    const one = predicted('heel down 4 mm from 60 mm');
    const before = cutOf(text('leave toe')).before;
    const was = (name: 'heel-height' | 'breakover-reach'): number => before?.get(name)?.value ?? NaN;
    // In the air: as before, less what was taken.
    expect(one.onToe?.value('heel-height')?.value).toBeCloseTo(was('heel-height') - 4, 9);
    expect(one.onToe?.value('breakover-reach')?.value).toBeCloseTo(was('breakover-reach'), 9);
    // P lies 50 mm behind the tip: -50 along the old ground, from (0, 16) to (-50, 0) along the line that falls by 4 in 60.
    const length = Math.hypot(60, 4);
    expect(one.value('breakover-reach')?.value).toBeCloseTo((-50 * 60) / length + (-16 * -4) / length, 9);
  });

  it('is cut into by the plane that its sole lies over: behind the bend by the heel’s, in front of it not at all', () => {
    // The wing's sole is 3 mm up at x = -80. From 60 mm (P at -50) the plane stands 12 × 30 / 60 = 6 mm high there.
    const one = predicted('heel down 12 mm from 60 mm', { 'sole.wing': [-80, 3], 'sole.tip': [0, 0.1] });
    expect(one.soleCut.wing).toBeCloseTo(3 * (60 / Math.hypot(60, 12)), 9);
    expect(one.soleCut.tip).toBe(0);
    expect(one.onToe?.soleCut).toEqual(one.soleCut);
    expect(one.value('sole-depth.tip')?.value).toBeCloseTo((16 - 0.1) * (60 / Math.hypot(60, 12)), 9);
    expect(one.onToe?.value('sole-depth.tip')?.value).toBeCloseTo(15.9, 9);
  });

  it('with `toe down` has its front plane from the old heel contact to the new toe', () => {
    const one = predicted('heel down 6 mm from 60 mm; toe down 1 mm');
    // The front plane rises 1 mm in 138; at the bend it stands 60 / 138 mm high.
    expect(one.onToe?.delta).toBeCloseTo(-Math.atan2(1, 138) * degrees, 9);
    expect(one.delta).toBeCloseTo(Math.atan2(6 - 60 / 138, 60) * degrees, 9);
  });

  it('says nothing of what goes by both contacts', () => {
    const one = predicted('heel down 4 mm from 60 mm');
    expect([one.value('bearing-length'), one.values.get('bearing-length')]).toEqual([undefined, undefined]);
    expect(predicted('heel down 4 mm').value('bearing-length')).toBeDefined();
  });

  it('is a foot on one plane where no heel comes off', () => {
    const one = predicted('heel down 0 mm from 60 mm; toe back 2 mm');
    expect(one.onToe).toBeNull();
    expect(one.value('bearing-length')?.value).toBeCloseTo(136, 9);
  });
});

describe('the limits of a cut on two planes', () => {
  it('are judged on the worse stance', () => {
    // atan2(8, 60) = 7.6°: more than 5, and more than the palmar angle of 5.0° lets go; on its toe neither is touched.
    const source = text('heel down 8 mm from 60 mm');
    expect(codes(source)).toEqual(expect.arrayContaining(['trim/turn-per-visit', 'trim/palmar-angle']));
    const turned = inspect(source).findings.find(({ code }) => code === 'trim/turn-per-visit');
    expect(turned?.message).toMatch(
      /^This plan turns the bone by 7\.6° in one visit where the foot stands on its heels, more than 5°/,
    );
    // The same heel on one plane: 3.3°.
    expect(codes(text('heel down 8 mm'))).not.toContain('trim/turn-per-visit');
  });

  it('are told in the stance that is worse for each: sole that is too thin on its toe only', () => {
    // P lies at -10, the heel's plane 7 mm up at -80: it takes 4 × 0.995 of the sole there. What is left of that lies at (-79.6, 6.96).
    // The wing (-60, 17) stands 10.04 mm over it; square to the heel's plane 19.6 × 0.0995 + 10.04 × 0.995 = 11.94.
    const source = text('heel down 10 mm from 100 mm', { 'p3.wing': [-60, 17], 'sole.wing': [-80, 3] }).replace(
      'visit ',
      'limits\n  sole-depth.wing >= 11 mm\n\nvisit ',
    );
    const { prediction } = cutOf(source);
    expect(prediction?.value('sole-depth.wing')?.value).toBeCloseTo(11.94, 2);
    expect(prediction?.onToe?.value('sole-depth.wing')?.value).toBeCloseTo(10.04, 2);
    const found = inspect(source).findings.find(({ code }) => code === 'trim/sole-depth');
    expect(found).toMatchObject({ measure: 'sole-depth.wing', limit: 11 });
    expect(found?.value).toBeCloseTo(10.04, 2);
  });

  it('a bend that is not behind the toe contact is told at its number, with a way out', () => {
    const source = text('heel down 4 mm from 150 mm');
    const [found] = inspect(source).findings.filter(({ code }) => code === 'trim/not-predicted');
    expect(source.slice(found?.at.start, found?.at.end)).toBe('150 mm');
    expect(found?.message).toMatch(/150 mm in front of its contact, is not behind the toe’s contact/);
    const [fix] = found?.fixes ?? [];
    const [edit] = fix?.edits ?? [];
    expect(edit && `${source.slice(0, edit.start)}${edit.text}${source.slice(edit.end)}`).toBe(text('heel down 4 mm'));
    expect(codes(text('heel down 4 mm from 137 mm'))).not.toContain('trim/not-predicted');
  });

  it('are kept by the fixes, which leave the place as it is', () => {
    const source = text('heel down 8 mm from 60 mm');
    const found = inspect(source).findings.find(({ code }) => code === 'trim/turn-per-visit');
    const fix = found?.fixes.find(({ title }) => title.startsWith('Lower the heel by'));
    const [edit] = fix?.edits ?? [];
    if (!edit) throw new Error('no fix');
    const mended = `${source.slice(0, edit.start)}${edit.text}${source.slice(edit.end)}`;
    expect(mended).toMatch(/heel down [\d.]+ mm from 60 mm/);
    expect(codes(mended)).toEqual([]);
  });
});

describe('a foot without a film', () => {
  it('is told by how much a bevel turns it, which no tape has to say', () => {
    const told = (lines: string) =>
      inspect(
        `hoof 1\nvisit 2026-03-04\n  tape LF\n    bearing-length 140 mm\n  plan LF\n    ${lines}\n`,
      ).findings.filter(({ code }) => code === 'trim/by-hand');
    // atan2(8, 60) = 7.6°; on one plane of 140 mm 3.3°.
    expect(told('heel down 8 mm from 60 mm').map(({ message }) => message)).toEqual([
      'From 60 mm in front of the heel’s contact this plan turns the foot by 7.6° in one visit where it stands on its heels, more than 5° (a judgement, no source).',
    ]);
    expect(told('heel down 8 mm')).toEqual([]);
    expect(told('heel down 5 mm from 60 mm')).toEqual([]);
  });
});

describe('after a trim on two planes', () => {
  const trimmed = (more: string): string => `${text('heel down 4 mm from 80 mm', {}, 'trim')}\n${more}`;
  const later = 'visit 2026-03-20\n  plan LF\n    heel down 1 mm\n';

  it('nothing is foretold, and that is said', () => {
    const { study, findings } = inspect(trimmed(later));
    expect(study.cuts[0]?.prediction).not.toBeNull();
    expect(study.cuts[1]).toMatchObject({ prediction: null, lost: { kind: 'two planes' } });
    expect(findings.find(({ code }) => code === 'trim/not-predicted')?.message).toBe(
      'This plan cannot be predicted on the film of 2026-03-04: the trim of 4 March 2026 left two planes, and on which of them the foot stands since only a new film tells.',
    );
  });

  it('no plan is written, and the reason stands in its place', () => {
    const { study } = inspect(trimmed('visit 2026-03-20\n'));
    const place = atEnd('LF', study);
    const made = place && planAt(place, { goal: { kind: 'most' } }, study);
    expect(made?.plan).toBeNull();
    expect(made?.says).toBe(
      'The trim of 4 March 2026 left two planes, and on which of them the foot stands since only a new film tells. Take one.',
    );
  });

  it('the next film ends it, and is held against both stances', () => {
    const next = (wing: number): string =>
      trimmed(
        `visit 2026-04-04\n${filmText({ ...places, 'p3.wing': [-80, wing] })}\n\n  plan LF\n    heel down 1 mm\n`,
      );
    const { study, findings } = inspect(next(21));
    expect(study.cuts[1]?.prediction).not.toBeNull();
    const message = findings.find(({ code }) => code === 'trim/outcome')?.message;
    // 5.0 - atan2(4, 80) = 5.0 - 2.9 = 2.1°; found atan2(5, 80) = 3.6°.
    expect(message).toMatch(
      /palmar angle 2\.1° on its heels or 5\.0° on its toe predicted, 3\.6° found \(between the two\)/,
    );
    const far = inspect(next(33)).findings.find(({ code }) => code === 'trim/outcome')?.message;
    // atan2(17, 80) = 12.0°: 7.0 more than on its toe.
    expect(far).toMatch(/12\.0° found \(7\.0° more\)/);
  });
});

describe('a cut on two planes in the faces', () => {
  const source = text('heel down 4 mm from 80 mm');
  const inspection = inspect(source);
  const [sheet] = filmSheets(inspection);
  const [cut] = sheet?.cuts ?? [];
  if (!sheet || !cut) throw new Error('no sheet');
  const folder = mkdtempSync(join(tmpdir(), 'ungula-planes-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('is said in both stances, and passes to the page as it is', () => {
    expect(turnWords(cut)).toBe('the foot turns 2.9° on its heels, 0.0° on its toe');
    expect(cut.rows.find(({ measure }) => measure === 'palmar-angle')?.after).toMatch(
      /^2\.1° ± \d\.\d on its heels, 5\.0° ± \d\.\d on its toe$/,
    );
    expect(filmSheetSchema.parse(JSON.parse(JSON.stringify(sheet))).cuts[0]).toMatchObject({
      size: { heelDown: 4, heelFrom: 80 },
      after: { bend: { x: expect.closeTo(-30, 9) as number, y: expect.closeTo(0, 9) as number } },
    });
  });

  it('is drawn with its bend: two grounds, and the horn between the heel’s plane and the old one', () => {
    expect(cut.after?.ground.map(({ x, y }) => [Math.round(x * 1e6) / 1e6, Math.round(y * 1e6) / 1e6])).toEqual([
      [-110, 4],
      [28, 0],
    ]);
    const [heel] = cut.after?.slivers ?? [];
    expect(heel?.text).toBe('4 mm');
    expect(Math.max(...(heel?.outline ?? []).map(({ x }) => x))).toBeCloseTo(-30, 9);
    const drawnGrounds = (of: string): number => {
      const [one] = filmSheets(inspect(of));
      if (!one) throw new Error('no sheet');
      const scene = drawPlate(plateOf(one, null, { cut: one.cuts[0] ?? null }));
      return scene.layers.flatMap(nodes).filter(({ data }) => data?.part === 'cut.ground').length;
    };
    expect(drawnGrounds(source)).toBe(2);
    expect(drawnGrounds(text('heel down 4 mm'))).toBe(1);
  });

  it('keeps its place under the slider, which tells what the text would tell', () => {
    for (const heel of [0, 2, 4, 7, 12]) {
      const tried = triedCut(sheet, cut, { ...cut.size, heelDown: heel });
      const [written] = filmSheets(inspect(text(`heel down ${heel} mm from 80 mm`)));
      expect(tried.broken, `${heel} mm`).toEqual(written?.cuts[0]?.broken);
      expect(tried.deltaOnToe, `${heel} mm`).toEqual(written?.cuts[0]?.deltaOnToe);
    }
    expect(triedCut(sheet, cut, { ...cut.size, heelDown: 2 }).cut).toBe('heel down 2 mm from 80 mm');
    const edit = heelInPlan(inspection, cut.line, 2);
    expect(edit && `${source.slice(0, edit.start)}${edit.text}${source.slice(edit.end)}`).toBe(
      text('heel down 2 mm from 80 mm'),
    );
    const moved = heelInPlan(inspection, cut.line, 95, 'from');
    expect(moved && `${source.slice(0, moved.start)}${moved.text}${source.slice(moved.end)}`).toBe(
      source.replace('from 80 mm', 'from 95 mm'),
    );
    const [onOne] = filmSheets(inspect(text('heel down 4 mm')));
    expect(heelInPlan(inspect(text('heel down 4 mm')), onOne?.cuts[0]?.line ?? -1, 95, 'from')).toBeNull();
    for (const mm of [0, 301, NaN]) expect(heelInPlan(inspection, cut.line, mm, 'from'), `${mm}`).toBeNull();
  });

  it('is told by hover and hint', () => {
    const document = TextDocument.create('file:///a.hoof', 'hoof', 1, source);
    const shown = hover(document, inspection, source.indexOf('plan') + 1, { docs: null, hoverFormat: 'plaintext' });
    expect(JSON.stringify(shown?.contents)).toContain(
      'On its heels the bone comes to stand 2.9° flatter, on its toe as before.',
    );
    const hints = inlayHints(document, inspection, { start: 0, end: source.length }).map(({ label }) => label);
    expect(hints).toContain('on its heels turns 2.9°, palmar angle 2.1°');
  });

  it('has both stances in the JSON', () => {
    const plan = measuredCase('x', inspection).visits[0]?.plans[0];
    expect(plan?.delta).toBeCloseTo(Math.atan2(4, 80) * degrees, 9);
    expect(plan?.ontoe?.delta).toBe(0);
    expect(plan?.ontoe?.predicted['palmar-angle']?.value).toBeCloseTo(palmar, 9);
  });

  it('is predicted and solved on the command line', async () => {
    const file = join(folder, 'planes.hoof');
    writeFileSync(file, caseText(filmText({ ...places, 'p3.wing': [-80, 30], 'sole.wing': [-80, 10] })));
    const run = async (...more: string[]) => {
      let [out, err] = ['', ''];
      const status = await commandLine(['plan', file, '--foot', 'LF', ...more], {
        out: (said) => (out += said),
        err: (said) => (err += said),
      });
      return { out, err, status };
    };
    const tried = await run('--heel', '4', '--from', '80');
    expect(tried.out).toContain(
      'Heel down 4 mm from 80 mm: on its heels the bone comes to stand 2.9° flatter, on its toe as before, palmar angle then 7.1° or 9.9°.',
    );
    const json = JSON.parse((await run('--heel', '4', '--from', '80', '--format', 'json')).out) as {
      stages: { from: number; ontoe: { delta: number } }[];
    };
    expect(json.stages[0]).toMatchObject({ from: 80, ontoe: { delta: 0 } });
    expect((await run('--from', '80', '--toe', '1')).err).toContain('it goes with --heel');
    expect((await run('--to', 'most', '--from', '80')).err).toContain('leave --from out');
    expect((await run('--heel', '4', '--planes', '2')).err).toContain('--planes goes with --to');
    const solved = await run('--to', 'most', '--planes', '2');
    expect(solved.out).toMatch(/heel {2}down [\d.]+ mm from \d+ mm\n/);
    expect(solved.out).toContain('After it nothing is foretold until the next film.');
    expect((await run('--to', 'most')).out).toMatch(
      /With the heel on a plane of its own more comes off: [\d.]+ mm from/,
    );
  });
});
