import { describe, expect, it } from 'vitest';
import { inspect, type Inspection } from '../../shared/findings/inspect.ts';
import type { StoredScale } from '../../shared/measures/take.ts';
import { filmSheets } from '../../shared/views/film-sheet.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { usualStudy, type StudySettings } from '../../shared/trim/study.ts';
import { filmText } from '../unit/plain-foot.ts';
import { randomFrom } from './random-edits.ts';

/** Limits, two films, a plan on a film of an earlier visit: findings that point into other blocks, from before and behind. */
const text = `hoof 1

case "X"
  animal    horse mare

limits
  sole-depth.tip      >= 16 mm because "thin last year"
  heel-height         <= 20 mm

visit 2026-03-04
${filmText()}

visit 2026-03-20
  plan LF
    heel  down 9 mm
    toe   down 3 mm
    accept trim/palmar-angle because "agreed with the vet"

visit 2026-04-01
  accept range/sole-depth.tip because "thin all her life"
${filmText({ 'wall.top': [-18, 66], 'sole.tip': [0, 4] })}

  tape LF
    toe-length          60 mm
`;

/** What is known of a case, without the frames, which tell nothing that the values do not. */
function told({ findings, study }: Inspection): unknown {
  return {
    findings,
    visits: study.record.visits.map(({ start, line, is }) => [start, line, is.date]),
    films: study.films.map(({ visit, film, day, readings }) => [
      visit.start,
      visit.line,
      film.head,
      day,
      readings.map(({ taking }) => [taking.scale, [...taking.values.values()].map(({ value, sd }) => [value, sd])]),
    ]),
    cuts: study.cuts.map(({ visit, cut, film, size, prediction }) => [
      visit.start,
      cut.head,
      film && [film.visit.start, film.film.head],
      size,
      prediction && [prediction.delta, prediction.soleCut, prediction.values.get('palmar-angle')?.sd],
    ]),
  };
}

describe('what is remembered of a reading or a cut', () => {
  it('equals what is told anew, wherever lines come and go', () => {
    expect(inspect(text).findings.filter(({ related }) => related.length > 0).length).toBeGreaterThan(4);
    const random = randomFrom(41);
    const memory = new BlockMemory();
    let now = text;
    for (let step = 0; step < 400; step++) {
      const lines = now.split('\n');
      const at = random(lines.length);
      if (random(3) > 0) lines.splice(at, 0, ['# a remark', '', '  | prose', '  weight     500 kg'][random(4)] ?? '');
      else if (/^(?:#|$)/.test(lines[at] ?? '') || random(12) === 0) lines.splice(at, 1);
      now = step % 40 === 39 ? text.replace('>= 16 mm', `>= ${14 + random(4)} mm`) : lines.join('\n');
      expect(inspect(now, undefined, memory).findings, `step ${step}`).toEqual(inspect(now).findings);
    }
  });

  it('tells what a film lacks anew once its picture states a scale', () => {
    const plan =
      'hoof 1\nvisit 2026-01-27\n  film LF lateral "a.dcm"\n    scale dicom\n  plan LF\n    heel down 3 mm\n';
    const memory = new BlockMemory();
    inspect(plan, undefined, memory);
    const known = () => ({ mmPerPx: 0.14, words: 'as calibrated' });
    const told = inspect(plan, undefined, memory, known).findings;
    expect(told).toEqual(inspect(plan, undefined, undefined, known).findings);
    expect(told.find(({ code }) => code === 'trim/not-predicted')?.message).not.toContain('scale');
  });

  it('judges a change anew once repeat readings elsewhere tell another spread', () => {
    const repeated = (spread: number): string => {
      const [header = '', ...lines] = filmText().split('\n');
      const frame = lines.filter((line) => !line.includes('@'));
      const readings = Array.from({ length: 12 }, (_, reader) => {
        const shift = spread * (reader % 2 === 0 ? 1 : -1);
        const placed = filmText({ 'sole.tip': [0, 3 + shift] })
          .split('\n')
          .filter((line) => line.includes('@'));
        return [`    read "reader ${reader + 1}"`, ...placed].join('\n');
      });
      return [header, ...frame, ...readings].join('\n');
    };
    const now = (spread: number): string =>
      [
        `hoof 1\n\nvisit 2026-01-04\n${repeated(spread)}`,
        `visit 2026-03-04\n${filmText({ 'sole.tip': [0, 1] }, { header: 'film RF lateral "b.png"' })}`,
        `visit 2026-04-04\n${filmText({ 'sole.tip': [0, 6] }, { header: 'film RF lateral "c.png"' })}\n`,
      ].join('\n\n');
    // A sole that has clearly fallen to 10 mm is a warning that says by how much; one within the error is not.
    const falls = (text: string, memory?: BlockMemory): boolean =>
      inspect(text, undefined, memory).findings.some(({ message }) => message.includes('5.0 mm less than on 4 March'));
    const memory = new BlockMemory();
    for (const [spread, wanted] of [
      [0.2, true],
      [6, false],
      [0.2, true],
    ] as const) {
      expect(falls(now(spread), memory), `${spread} mm`).toBe(wanted);
      expect(falls(now(spread)), `${spread} mm, anew`).toBe(wanted);
    }
  });

  it('shows each of two visits that are alike with its own cuts', () => {
    const visit = 'visit 2026-04-01\n  film LF lateral "a.png"\n  trim LF\n    heel down 3 mm\n';
    const memory = new BlockMemory();
    for (const now of [visit, visit + visit])
      expect(filmSheets(inspect(now, undefined, memory))).toEqual(filmSheets(inspect(now)));
    expect(filmSheets(inspect(visit + visit, undefined, memory)).map(({ cuts }) => cuts.length)).toEqual([1, 1]);
  });

  it('points at the right film of two visits that are alike', () => {
    const visit = 'visit 2026-03-04\n  film RF lateral "a.png"\n  plan RF\n    heel down 3.8 mm\n';
    const memory = new BlockMemory();
    for (const now of [visit, visit + visit, visit, visit + visit])
      expect(inspect(now, undefined, memory).findings).toEqual(inspect(now).findings);
  });
});

/** Twelve visits of two feet: films that worsen, plans and trims on films of other visits, a next visit far away, two visits alike. */
function longCase(random: (below: number) => number): string[] {
  const blocks = [
    'hoof 1\n\n',
    'case "X"\n  animal horse mare\n\n',
    'limits\n  sole-depth.tip >= 16 mm because "thin"\n\n',
  ];
  for (let visit = 0; visit < 12; visit++) blocks.push(visitText(visit, random));
  blocks.push(blocks.at(-1) ?? '');
  return blocks;
}

function visitText(month: number, random: (below: number) => number): string {
  const foot = random(3) === 0 ? 'RF' : 'LF';
  const film = filmText(
    { 'wall.top': [-18, 62 + random(12)], 'sole.tip': [0, 1 + random(9)], 'p3.tip': [0, 15 + random(6)] },
    {
      header: `${random(6) === 0 ? 'photo' : 'film'} ${foot} lateral "${month}.png"`,
      more: random(4) === 0 ? [`taken 2025-${String(1 + random(12)).padStart(2, '0')}-11`] : [],
      ...(random(5) === 0 && { scale: 'scale dicom' }),
    },
  );
  const parts = [`visit ${date(month)}\n`];
  if (random(3) === 0) parts.push(`  weight ${450 + 100 * random(4)} kg\n  obel ${random(6)}\n`);
  if (random(3) > 0) parts.push(`${film}\n`);
  if (random(2) === 0)
    parts.push(`  ${random(2) === 0 ? 'plan' : 'trim'} ${foot}\n    heel down ${2 + random(9)} mm\n`);
  if (random(3) === 0) parts.push('  next 20 weeks\n');
  if (random(3) === 0) parts.push(`  tape ${foot}\n    toe-length ${60 + random(40)} mm\n`);
  return parts.join('\n') + '\n';
}

const date = (month: number): string => new Date(Date.UTC(2025, month, 4)).toISOString().slice(0, 10);

describe('what is remembered of a film that takes its scale from the bones', () => {
  /** Lines of other films that its scale rests on, and of its own; of the animal, of the other foot. */
  const edits: readonly ((text: string) => string)[] = [
    (now) => now.replace('scale 0.1 mm/px', 'scale 0.104 mm/px'),
    (now) => now.replace('scale 0.104 mm/px', 'scale 0.1 mm/px'),
    (now) => now.replace(/p3\.wing @ [\d.]+/, `p3.wing @ ${1190 + (now.length % 7)}`),
    (now) => now.replace('scale 0.1 mm/px', 'scale bone'),
    (now) => now.replace('scale bone', 'scale 0.1 mm/px'),
    (now) => now.replace('animal horse', 'foaled 2023-04-01\n  animal horse'),
    (now) => now.replace('  foaled 2023-04-01\n', ''),
    (now) => now.replace(/film LF/, 'film RF'),
    (now) => now.replace(/film RF/, 'film LF'),
    (now) => now.replace(/^ *pastern\.centre.*\n/m, ''),
    (now) => now.replace('\n\nvisit', '\n\n# a remark\nvisit'),
  ];

  it('equals what is told anew, whatever becomes of the other films', () => {
    const random = randomFrom(11);
    const film = (picture: string, scale: string) =>
      filmText({}, { header: `film LF lateral "${picture}.png"`, scale });
    const start = `hoof 1\n\ncase "X"\n  animal horse mare\n\nvisit 2025-03-04\n${film('a', 'scale 0.1 mm/px')}\n\nvisit 2026-05-04\n${film('b', 'scale bone')}\n\n  plan LF\n    heel down 3 mm\n\nvisit 2026-06-04\n${film('c', 'scale 0.1 mm/px')}\n\nvisit 2026-07-04\n${film('d', 'scale bone')}\n`;
    const memory = new BlockMemory();
    const scales = new Set<number | null | undefined>();
    let now = start;
    for (let step = 0; step < 200; step++) {
      now = step % 25 === 0 ? start : (edits[random(edits.length)]?.(now) ?? now);
      const recalled = inspect(now, undefined, memory);
      expect(told(recalled), `step ${step}`).toEqual(told(inspect(now)));
      for (const { film: one, readings } of recalled.study.films)
        if (one.scale?.kind === 'bone') scales.add(readings[0]?.taking.scale);
    }
    // Its scale did change, and was sometimes none.
    expect(scales.size).toBeGreaterThan(4);
    expect(scales).toContain(null);
  });

  it('is the very same reading where another film changes in what is no bone', () => {
    const text = `hoof 1\n\nvisit 2026-03-04\n${filmText()}\n\nvisit 2026-05-04\n${filmText({}, { header: 'film LF lateral "b.png"', scale: 'scale bone' })}\n`;
    const memory = new BlockMemory();
    const before = inspect(text, undefined, memory).study.films[1]?.readings;
    const after = inspect(text.replace('sole.tip @ 2000, 990', 'sole.tip @ 2000, 985'), undefined, memory);
    expect(before).toBeDefined();
    expect(after.study.films[1]?.readings).toBe(before);
  });
});

describe('what is remembered of a case', () => {
  it('equals what is told anew, whatever becomes of its visits', () => {
    const random = randomFrom(7);
    const memory = new BlockMemory();
    let blocks = longCase(random);
    let settings: StudySettings = usualStudy;
    let stored: StoredScale = { mmPerPx: 0.5, words: 'as stored' };
    const scales = () => stored;
    let pointing = 0;
    for (let step = 0; step < 160; step++) {
      const at = 2 + random(blocks.length - 2);
      const block = blocks[at] ?? '';
      switch (random(14)) {
        case 0:
          blocks.splice(at, 1);
          break;
        case 1:
          blocks.splice(at, 0, visitText(random(14), random));
          break;
        case 2:
          blocks.push(...blocks.splice(at, 1));
          break;
        case 3:
          blocks.splice(at, 0, block);
          break;
        case 4:
          blocks[at] = block.replace(/^visit [\d-]+/, `visit ${date(random(14))}`);
          break;
        case 5:
          blocks[1] = `case "X"\n  animal ${random(4) === 0 ? 'donkey' : 'horse'} mare\n${random(2) === 0 ? `  foaled 202${2 + random(4)}-0${1 + random(9)}\n` : ''}  height ${120 + 10 * random(6)} cm\n\n`;
          break;
        case 6:
          blocks[at] = block.replace(/heel down \d+/, `heel down ${random(16)}`);
          break;
        case 7:
          if (random(3) === 0) settings = { ...settings, spread: { mm: 0.4 + 0.1 * random(3), px: 5 } };
          else if (random(2) === 0) settings = { ...settings, trim: { ...settings.trim, filmAge: 20 + random(40) } };
          else settings = { ...settings, change: { ...settings.change, angle: 1 + random(3), length: random(4) } };
          break;
        case 8:
          stored =
            random(3) === 0 ? { lack: 'It says nothing.' } : { mmPerPx: 0.4 + 0.1 * random(3), words: 'as stored' };
          break;
        case 12:
          blocks[at] = block.replace(
            /\n/,
            `\n${['  weight 700 kg', '  obel 3', '  obel 5', '  vet seen 2025-06-01 "came"'][random(4)]}\n`,
          );
          break;
        case 13:
          blocks[at] = block.replace(/ {2}(?:weight|obel) .*\n|^.*(?:p3\.tip|coronet\.dorsal) @.*\n/m, '');
          break;
        case 9:
          blocks = step % 5 === 0 ? longCase(random) : blocks;
          break;
        default:
          blocks[at] = random(2) === 0 ? block.replace('\n', '\n\n') : block.replace('\n\n', '\n');
      }
      const now = blocks.join('');
      const recalled = told(inspect(now, settings, memory, scales));
      const anew = inspect(now, settings, undefined, scales);
      pointing += anew.findings.filter(({ related }) => related.length > 0).length;
      expect(recalled, `step ${step}`).toEqual(told(anew));
    }
    expect(pointing).toBeGreaterThan(1000);
  });

  it('is the very same where nothing has changed', () => {
    const memory = new BlockMemory();
    const differing = text.replace('    p3.tip', '    expect palmar-angle 30 deg\n    p3.tip');
    const first = inspect(differing, undefined, memory);
    const second = inspect(`${differing}\n# a remark behind all\n`, undefined, memory);
    const visits = (one: Inspection) => one.study.visits.slice(0, 2);
    // Of what is told of a visit; what is told of the case is told each time.
    const ofVisit = (one: Inspection) => one.findings.find(({ code }) => code === 'expect/differs');
    expect(visits(second)[0]).toBe(visits(first)[0]);
    expect(visits(second)[1]).toBe(visits(first)[1]);
    expect(ofVisit(first)).toBeDefined();
    expect(ofVisit(second)).toBe(ofVisit(first));
  });
});
