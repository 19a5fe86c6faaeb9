import { describe, expect, it } from 'vitest';
import type { Finding } from '../../shared/findings/finding.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { boneCase } from './bone-cases.ts';
import { caseText, filmText, type Places } from './plain-foot.ts';

/** Sentences as they are read aloud at a stable door: whole, so that a change of one word is seen. */

const found = (text: string, code: string): Finding | undefined =>
  inspect(text).findings.find((one) => one.code === code);
const said = (text: string, code: string): string | undefined => found(text, code)?.message;
const film = (places: Places, animal?: string): string => caseText(filmText(places), animal ? { animal } : {});
const cut = (lines: string, kind = 'plan', places: Places = {}): string =>
  caseText(`${filmText(places)}\n\n  ${kind} LF\n    ${lines}`);

describe('a value out of its range', () => {
  it('names a textbook as one, and the book itself beside the sentence', () => {
    const text = film({ 'p3.wing': [-80, 36] });
    expect(said(text, 'range/palmar-angle')).toMatch(
      /^Palmar angle, left fore: 14\.0 ± 0\.\d°, over 10° \(a textbook\)\. Two people place these points differently: do not go by this alone\.$/,
    );
    expect(found(text, 'range/palmar-angle')?.source).toContain('Equine Clinical Medicine');
  });

  it('says that others quote the same paper otherwise, and how near the line it is', () => {
    expect(said(film({ 'p3.dorsal.upper': [-25.2, 52.8] }), 'range/capsular-rotation')).toMatch(
      /over 5\.5° \(Stick and others, from memory\)\. (?:So near the line that the placing alone may be it\. )?Others quote the same paper with 6\.8°\. /,
    );
    expect(said(film({ 'p3.wing': [-80, 30.2] }), 'range/palmar-angle')).toContain(
      ' (a textbook). So near the line that the placing alone may be it. ',
    );
  });

  it('is short of a thin sole, and says of a donkey whose figures they are', () => {
    const sole =
      /^Sole depth at the tip, left fore: 9\.5 ± 0\.7 mm\. Sound horses have 11\.5 ± 4\.5 mm before and 8\.6 ± 3\.3 mm after a trim; 15 mm is widely taught\. Leave the sole under and in front of the tip alone\./;
    const places: Places = { 'sole.tip': [0, 6.5] };
    expect(said(film(places), 'range/sole-depth.tip')).toMatch(sole);
    expect(said(film(places), 'range/sole-depth.tip')).not.toContain('donkey');
    expect(said(film(places, 'animal donkey jenny'), 'range/sole-depth.tip')).toMatch(
      /alone\. No figures of donkeys could be read; these are horses’\.$/,
    );
    expect(found(film(places), 'range/sole-depth.tip')?.source).toContain('from memory');
  });

  it('tells wall and bone in one short sentence, with every source beside it', () => {
    const wide: Places = { 'wall.upper': [-7, 55], 'wall.lower': [26, 25] };
    const one = found(film(wide), 'range/wall-to-bone');
    expect(one?.message).toMatch(
      /^Wall to bone, left fore: thick\. Horn and lamellae [\d.]+ % of the bone’s length \(usual to 28 %\), (?:.*, )?halfway down .*; below [\d.]+ mm wider than above\.$/,
    );
    expect(one?.message.split(' ').length).toBeLessThan(45);
    expect(one?.source).toMatch(/Mullard.*; Floyd/);
  });
});

describe('wall and pastern in line outside, the bone not inside', () => {
  const heels: Places = { 'p3.wing': [-80, 32], 'heel.ground': [-104, 0], 'sole.heel': [-104, 14] };
  const outside = (places: Places): string | undefined => said(film({ ...heels, ...places }), 'alignment/outside-only');

  it('leaves out the pastern where the bone is no more off it than in sound feet', () => {
    // Sound feet: 3.3 ± 3.0° (ten Dareh-Shori horses, Iran J Vet Surg, article 79374, abstract).
    for (const [upper, named] of [
      [[-25.5, 53], false],
      [[-22, 56], true],
    ] as const) {
      const message = outside({ 'p3.dorsal.upper': upper });
      expect(message).toMatch(
        /^Left fore: seen from outside, wall and pastern are in line within \d°\. Inside, the bone is \d+° off the wall( and \d+° off the pastern)?, on heels 14 mm above the live sole plane\. .* This counts only if the cannon stood upright on the film\.$/,
      );
      expect(message?.includes('off the pastern')).toBe(named);
    }
  });
});

describe('a scale', () => {
  it('that the bones contradict names the number that would fit', () => {
    const marker = boneCase([{}, {}, {}]).replace(/scale 100 mm(?![^]*scale 100 mm)/, 'scale 108 mm');
    expect(said(marker, 'scale/bone-length')).toContain('With 100 mm instead of 108 the bones would fit.');
    expect(said(boneCase([{}, {}, { scale: 'scale 0.12 mm/px' }]), 'scale/bone-length')).toContain(
      'With 0.1 mm/px instead of 0.12 the bones would fit.',
    );
    expect(said(boneCase([{}, { scale: 'scale 0.125 mm/px' }]), 'scale/bone-length')).toContain(
      'With 0.1 mm/px instead of 0.125 here, or 125 mm instead of 100 there, the bones would fit.',
    );
  });

  it('from the bone that there is none of says why', () => {
    const bone = { scale: 'scale bone' };
    expect(said(boneCase([bone, bone]), 'frame/no-scale')).toMatch(
      /^No other film tells how large the bones are, so there is no scale\. Angles and ratios are given, lengths are not\. /,
    );
    expect(said(boneCase([{}, { scale: 'scale 0.12 mm/px' }, bone]), 'frame/no-scale')).toMatch(
      /^The two films with a scale contradict each other, so there is no scale from them\. /,
    );
    expect(said(boneCase([{}, bone], 'foaled 2022-01-01'), 'frame/no-scale')).toMatch(
      /^Its bones may still have grown \(under three years\), so they give no scale\. /,
    );
  });
});

describe('insulin', () => {
  const of = (animal: string): string | undefined =>
    said(`hoof 1\n\ncase "X"\n  ${animal}\n\nvisit 2026-03-04\n  insulin 38 uIU/mL\n`, 'visit/insulin');

  it('of a horse is told with the ponies’ figures as such', () => {
    expect(of('animal horse mare')).toContain('These are ponies’ figures. After a sugar test other figures count.');
    expect(of('animal pony mare')).not.toContain('These are ponies’');
  });
});

describe('a cut', () => {
  it('into live sole says first what is wrong, and last how that is known', () => {
    const heel = said(cut('heel down 13 mm'), 'trim/live-sole');
    expect(heel).toMatch(/^This plan takes live sole: \d/);
    expect(heel).toMatch(/ Take less heel\. That no live sole is cut is common practice, without a source\.$/);
    expect(said(cut('toe down 6 mm'), 'trim/live-sole')).toContain(' Leave the toe alone. ');
    expect(said(cut('heel down 8 mm', 'plan'), 'trim/below-sole-plane')).toMatch(
      /^A heel cut of 8\.0 mm goes 5\.0 mm below the live sole plane: only 3\.0 ± 0\.\d mm of heel stand beyond it\. To stop .* without a source\.$/,
    );
  });

  it('of the toe while bone and wall part ends with the practice', () => {
    expect(said(cut('toe down 1 mm', 'plan', { 'p3.dorsal.upper': [-22, 56] }), 'trim/toe-shortened')).toMatch(
      /^The toe is lowered while bone and wall part by \d+\.\d ± \d\.\d°\. .* is common practice, without a source\.$/,
    );
  });
});

describe('a line that means nothing', () => {
  it('is told what to write', () => {
    expect(said('hoof 1\n\ncase "X"\n  foaled 10\n', 'notation/date-form')).toBe(
      'Write the year, or year and month: 2010-05.',
    );
    expect(said('hoof 1\nvisit 2010\n', 'notation/date-form')).toBe('Write the date as year, month, day: 2026-03-04.');
    expect(said(caseText('  tape LF\n    palmar-angle 5 deg\n'), 'measure/not-by-hand')).toBe(
      'A palmar angle is measured on a film, not by hand.',
    );
  });

  it('or a picture that stands twice, whose it is already', () => {
    expect(said(boneCase([{ picture: 'a.png' }, { picture: 'a.png' }]), 'picture/twice')).toMatch(
      /^This picture is the film of the left fore of 4 January 2024 already; here it is that of the left fore of 4 February 2024\./,
    );
  });
});
