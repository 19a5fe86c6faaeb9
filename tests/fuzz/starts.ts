import { readdirSync, readFileSync } from 'node:fs';
import { randomLine } from '../property/random-lines.ts';
import { randomFoot, toNotation as footNotation } from '../property/random-foot.ts';
import { randomView, toNotation as viewNotation } from '../property/random-views.ts';
import type { Container } from '../../shared/notation/vocabulary.ts';
import { filmText } from '../unit/plain-foot.ts';

export type Random = (below: number) => number;

const folder = new URL('../../examples/', import.meta.url);
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.hoof'))
  .sort()
  .map((name) => readFileSync(new URL(name, folder), 'utf8'));

export function pick<T>(random: Random, from: readonly T[]): T {
  return from[random(from.length)] as T;
}

/** Pictures whose own file states a scale, so far as somebody has looked. */
export const pictures = ['a.dcm', 'b.dcm', 'x.png'] as const;

/** A text to begin with: mostly short ones with much that rests on something else. */
export function start(random: Random): string {
  switch (random(12)) {
    case 0:
      return pick(random, ['', '\ufeff', 'hoof 1', 'hoof 1\n', 'visit 2026-03-04\n', '\n\n# nothing yet\n']);
    case 1:
    case 2:
      return pick(random, examples);
    case 3:
      return footNotation(randomFoot(random(1_000_000)));
    case 4:
      return viewNotation(randomView(pick(random, ['front', 'solar'] as const), random(1_000_000)));
    case 5:
      return course(random).replaceAll('\n', '\r\n');
    case 6:
      return `\ufeff${course(random)}`;
    default:
      return course(random);
  }
}

/** Some visits of one animal whose plans rest on earlier films, whose films are compared, under limits of its own. */
function course(random: Random): string {
  const parts = ['hoof 1\n', animalBlock(random)];
  if (random(2) === 0) parts.push(limitsBlock(random));
  const count = 1 + random(4);
  let day = random(60);
  for (let i = 0; i < count; i++) {
    parts.push(visitBlock(random, day));
    day += random(50);
  }
  if (random(6) === 0) parts.push(limitsBlock(random));
  return parts.join('\n');
}

export function dateOf(day: number): string {
  return new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10);
}

export function animalBlock(random: Random): string {
  const kind = pick(random, ['horse mare', 'pony gelding', 'donkey jenny', 'mule', 'hinny']);
  const height = random(2) === 0 ? `  height    ${100 + random(70)} cm\n` : '';
  const code = random(2) === 0 ? `  code      S${random(100)}\n` : '';
  return `case "X"\n  animal    ${kind}\n${height}${code}`;
}

export function limitsBlock(random: Random): string {
  const rows = [
    `  sole-depth.tip      >= ${10 + random(12)} mm because "thin last year"`,
    `  heel-height         <= ${15 + random(40)} mm`,
    `  palmar-angle        <= ${random(12)} deg`,
    `  founder-distance    <= ${random(16)} mm because "agreed"`,
    `  toe-length          >= ${60 + random(40)} mm`,
  ];
  return `limits\n${rows.filter(() => random(2) === 0).join('\n')}\n`;
}

const feet = ['LF', 'LF', 'LF', 'RF', 'LH'] as const;

/** One to three lines of whatever the vocabulary has for a block. */
function someLines(random: Random, place: Container, indent: string): string {
  return Array.from({ length: 1 + random(3) }, () => `${indent}${randomLine(random, place)}\n`).join('');
}

export function visitBlock(random: Random, day: number): string {
  const parts = [`visit ${dateOf(day)}${random(3) === 0 ? ' "a look"' : ''}\n`];
  if (random(2) === 0) parts.push(someLines(random, 'visit', '  '));
  if (random(3) === 0) parts.push(`  sign ${pick(random, ['fever', 'coronet-gap', 'stiff'])}\n`);
  if (random(3) > 0) parts.push(filmBlock(random, day));
  if (random(3) === 0) parts.push(`  tape ${pick(random, feet)}\n    toe-length          ${50 + random(60)} mm\n`);
  if (random(3) > 0) parts.push(cutBlock(random));
  if (random(4) === 0) parts.push(cutBlock(random));
  if (random(4) === 0) parts.push(someLines(random, 'visit', '  '));
  if (random(3) === 0) parts.push(`  next ${1 + random(12)} weeks\n`);
  return parts.join('\n');
}

export function filmBlock(random: Random, day: number): string {
  const lift = random(12);
  const changes: Record<string, readonly [number, number] | undefined> = {
    'p3.tip': [0, 10 + lift],
    'wall.top': [-18 + random(4), 58 + random(8)],
    'coronet.dorsal': [-25, 62 + random(14)],
    'sole.tip': [0, 1 + random(5)],
  };
  for (const gone of ['heel.ground', 'toe.ground', 'wall.inner.lower', 'p3.extensor', 'sole.wing'])
    if (random(9) === 0) changes[gone] = undefined;
  const text = filmText(changes, {
    header: `${random(8) === 0 ? 'photo' : 'film'} ${pick(random, feet)} lateral "${pick(random, pictures)}"`,
    scale: pick(random, [
      'scale 0.1 mm/px',
      'scale dicom',
      'scale dicom',
      'scale bone',
      'scale 100 mm = 0, 0 .. 0, 1000',
      null,
    ]),
    ground: random(4) === 0 ? null : 'ground 0, 1000 .. 2000, 1000',
    more: [
      ...(random(4) === 0 ? [`taken ${dateOf(Math.max(0, day - random(20)))}`] : []),
      ...(random(5) === 0 ? [`expect palmar-angle ${random(9)} deg +- 1 deg`] : []),
      ...(random(4) === 0 ? [randomLine(random, 'film')] : []),
      ...(random(6) === 0 ? [`read "second"${random(2) === 0 ? ' +- 3' : ''}`] : []),
    ],
  });
  return `${text}\n`;
}

export function cutBlock(random: Random): string {
  const lines = [`  ${pick(random, ['plan', 'plan', 'trim'])} ${pick(random, feet)}`];
  if (random(5) > 0) lines.push(`    heel  down ${random(16)} mm`);
  if (random(3) === 0) lines.push(`    toe   down ${random(9)} mm`);
  if (random(3) === 0) lines.push(`    toe   back ${random(20)} mm`);
  if (random(6) === 0) lines.push('    leave sole');
  if (random(4) === 0) lines.push(`    ${randomLine(random, 'trim')}`);
  return `${lines.join('\n')}\n`;
}
