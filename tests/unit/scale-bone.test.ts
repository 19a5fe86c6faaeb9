import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { takeMeasures } from '../../shared/measures/take.ts';
import { measuredCase, measuredRows } from '../../shared/export/measured.ts';
import { reportPage } from '../../shared/report/page.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { liveSheet } from '../../shared/views/live-sheet.ts';
import { boneCase, type BoneFilm } from './bone-cases.ts';

const bone: BoneFilm = { scale: 'scale bone' };
const read = (films: Parameters<typeof boneCase>[0], sheet?: string) => inspect(boneCase(films, sheet));
const scaleOf = ({ study }: ReturnType<typeof inspect>, film: number) => study.films[film]?.readings[0]?.taking.scale;
const noScale = (inspection: ReturnType<typeof inspect>) =>
  inspection.findings.filter(({ code }) => code === 'frame/no-scale');

describe('a scale from the bone', () => {
  it('is that at which the bones have the size that they have on the other films', () => {
    const inspection = read([{}, {}, { ...bone, size: 1.25 }]);
    // The foot shows a quarter larger, so that a pixel is that much less: 0.1 / 1.25.
    expect(scaleOf(inspection, 2)).toBeCloseTo(0.08, 6);
    expect(inspection.findings.map(({ code }) => code)).not.toContain('frame/no-scale');
    expect(inspection.study.films[2]?.bone).toMatchObject({ from: 'foot', films: 2, input: { relativeSd: 0.03 } });
  });

  it('knows every length to 3 % at best, and leaves angles as they are', () => {
    const values = ({ study }: ReturnType<typeof inspect>) => study.films[1]?.readings[0]?.taking.values;
    const [own, from] = [values(read([{}, { scale: 'scale 0.1 mm/px' }])), values(read([{}, bone]))];
    for (const name of ['p3-length', 'p2-length'] as const) {
      const value = from?.get(name);
      expect(value?.value, name).toBeCloseTo(own?.get(name)?.value ?? NaN, 6);
      expect(value?.sd, name).toBeGreaterThanOrEqual(0.03 * (value?.value ?? NaN) * (1 - 1e-9));
    }
    expect(from?.get('palmar-angle')?.sd).toBeCloseTo(own?.get('palmar-angle')?.sd ?? NaN, 9);
  });

  it('rests on no film that is accused, nor on one that has its own from the bones', () => {
    expect(scaleOf(read([{}, {}, { scale: 'scale 0.12 mm/px' }, bone]), 3)).toBeCloseTo(0.1, 6);
    const chain = read([bone, bone]);
    expect([scaleOf(chain, 0), scaleOf(chain, 1)]).toEqual([null, null]);
    expect(
      noScale(chain).map(({ severity, message }) => [
        severity,
        /No other film tells how large the bones are, so there is no scale\./.test(message),
      ]),
    ).toEqual([
      ['warning', true],
      ['warning', true],
    ]);
  });

  it('takes the other foot of the pair where it has to, with 6 % and an info', () => {
    const inspection = read([{ foot: 'RF' }, bone]);
    expect(inspection.study.films[1]?.bone).toMatchObject({ from: 'pair', input: { relativeSd: 0.06 } });
    const told = inspection.findings.find(({ code }) => code === 'scale/other-foot');
    expect(told).toMatchObject({ severity: 'info' });
    expect(told?.message).toContain('the bones of the right fore');
    expect(read([{ foot: 'RF' }, {}, bone]).study.films[2]?.bone).toMatchObject({ from: 'foot' });
  });

  it('is none under 36 months, where the bones are not placed, in a photograph and in another view, each told', () => {
    const young = read([{}, bone], 'foaled 2022-01-01');
    expect(scaleOf(young, 1)).toBeNull();
    expect(noScale(young)[0]?.message).toContain('Its bones may still have grown (under three years)');
    const unplaced = inspect(
      boneCase([{}, bone])
        .replace(/(scale bone[^]*) *p3\.extensor.*\n/, '$1')
        .replace(/ *pastern\.centre.*\n$/, ''),
    );
    expect(noScale(unplaced)[0]?.message).toContain('The bones are not placed');
    for (const header of ['photo LF lateral', 'film LF front', 'photo LF solar']) {
      const { findings, study } = inspect(`hoof 1\n\nvisit 2026-01-01\n  ${header} "a.png"\n    scale bone\n`);
      expect(study.films[0]?.bone, header).toHaveProperty('lack');
      expect(
        findings.filter(({ severity }) => severity === 'error'),
        header,
      ).toEqual([]);
    }
  });

  it('is measured by the page as by the server, also when a bone is moved there', () => {
    const inspection = read([{}, { ...bone, size: 1.1 }]);
    const sheet = filmSheets(inspection)[1];
    if (!sheet) throw new Error('the case has two films');
    const sent = structuredClone(sheet.input);
    expect(takeMeasures(() => sent).scale).toBe(sheet.scale);
    const at = { x: 1111, y: 1777 };
    const live = liveSheet(sheet, [{ kind: 'landmark', name: 'p3.wing', at }]);
    const text = inspection.tree.text.replace(/p3\.wing @ [\d.]+, [\d.]+(?![^]*p3\.wing)/, 'p3.wing @ 1111, 1777');
    expect(live.scale).toBe(filmSheets(inspect(text))[1]?.scale);
    expect(live.scale).not.toBe(sheet.scale);
  });

  it('is flagged on the sheet, the report page and in exports', () => {
    const inspection = read([{}, bone]);
    const [, sheet] = filmSheets(inspection);
    expect(sheet?.scaleWords).toMatch(/^Scale from the bone: its size as on one film of this foot/);
    const page = reportPage([{ file: 'a.hoof', inspection, pictures: new Map() }], '2026-01-01');
    expect(page).toContain('Scale from the bone');
    const films = measuredCase('a.hoof', inspection).visits.flatMap((visit) => visit.films);
    expect(films.map(({ scaleFrom }) => scaleFrom)).toEqual(['marker', 'bone']);
    expect(new Set(measuredRows('a.hoof', inspection.study).map(({ scale_from }) => scale_from))).toEqual(
      new Set(['marker', 'bone']),
    );
  });

  it('is offered where a film has no scale and its bones are placed', () => {
    const text = boneCase([{}, { scale: null }]);
    const [finding] = noScale(inspect(text));
    const [fix] = finding?.fixes ?? [];
    const edit = fix?.edits[0];
    if (!edit) throw new Error('nothing is offered');
    const mended = text.slice(0, edit.start) + edit.text + text.slice(edit.end);
    expect(mended).toContain('"LF-2024-02.png"\n    scale bone\n');
    expect(scaleOf(inspect(mended), 1)).toBeCloseTo(0.1, 6);
    expect(
      noScale(
        inspect(
          'hoof 1\n\nvisit 2026-01-01\n  film LF lateral "a.png"\n    ground 0, 9 .. 9, 9\n    p3.tip @ 1, 2\n    p3.wing @ 8, 2\n',
        ),
      ).map(({ fixes }) => fixes),
    ).toEqual([[]]);
  });
});
