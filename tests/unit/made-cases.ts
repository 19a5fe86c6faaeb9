import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { randomFrom } from '../property/random-edits.ts';
import { soundFoot } from './plain-foot.ts';

/**
 * Invented cases, as many as wanted and the same for one seed: one to four visits four weeks or so apart, a film of a fore foot at each,
 * every third one read by two, plans and trims, a tape, values of the blood. The films are those of the plain sound foot, scattered.
 */
export function* madeCases(count: number, seed = 4711): Iterable<{ readonly code: string; readonly text: string }> {
  const random = randomFrom(seed);
  const share = (): number => random(1_000_000) / 1_000_000;
  /** About normal: of twelve even draws (Irwin and Hall). */
  const scatter = (sd: number): number => {
    let sum = -6;
    for (let n = 0; n < 12; n++) sum += share();
    return sum * sd;
  };
  const draw: Draw = {
    share,
    scatter,
    between: (low, high) => low + (high - low) * share(),
    one: (words) => words[random(words.length)] as string,
  };
  for (let number = 1; number <= count; number++) {
    const code = `M${String(number).padStart(6, '0')}`;
    yield { code, text: madeCase(code, draw) };
  }
}

/** Writes them, a hundred to a folder, and gives their codes. */
export function writeMadeCases(folder: string, count: number, seed?: number): string[] {
  const codes: string[] = [];
  for (const { code, text } of madeCases(count, seed)) {
    const within = join(folder, String(Math.floor(codes.length / 100)).padStart(4, '0'));
    if (codes.length % 100 === 0) mkdirSync(within, { recursive: true });
    writeFileSync(join(within, `${code}.hoof`), text);
    codes.push(code);
  }
  return codes;
}

interface Draw {
  share(): number;
  scatter(sd: number): number;
  between(low: number, high: number): number;
  one(words: readonly string[]): string;
}

const names = ['Saffron', 'Bracken', 'Pimpernel', 'Tansy', 'Clover', 'Rowan', 'Yarrow', 'Campion'];
const readers = ['Ysolde Q.', 'Mungo T.', 'Perpetua V.'];

function madeCase(code: string, draw: Draw): string {
  const foot = draw.one(['LF', 'RF']);
  const lines = [
    'hoof 1',
    '',
    `case "${draw.one(names)} the ${draw.one(['first', 'second', 'third'])}"`,
    `  animal ${draw.one(['horse', 'pony', 'pony', 'donkey'])} ${draw.one(['mare', 'gelding'])}`,
    `  foaled ${1998 + Math.floor(draw.share() * 20)}-0${1 + Math.floor(draw.share() * 9)}-11`,
    `  height ${Math.round(draw.between(95, 165))} cm`,
    `  code ${code}`,
    `  sharing ${draw.one(['series', 'series', 'open'])}`,
    `  onset 2024-0${1 + Math.floor(draw.share() * 9)} "short on stones"`,
  ];
  // Bones keep their size.
  const size = draw.between(0.85, 1.1);
  const visits = 1 + Math.floor(draw.share() * 4);
  let day = 20_000 + Math.floor(draw.share() * 400);
  for (let visit = 0; visit < visits; visit++) {
    lines.push('', ...madeVisit({ foot, size }, day, visit, draw));
    day += 24 + Math.floor(draw.share() * 9);
  }
  return `${lines.join('\n')}\n`;
}

const dateOf = (day: number): string => new Date(day * 86_400_000).toISOString().slice(0, 10);

interface MadeFoot {
  readonly foot: string;
  readonly size: number;
}

function madeVisit({ foot, size }: MadeFoot, day: number, visit: number, draw: Draw): string[] {
  const heel = Math.round(draw.between(1, 6));
  return [
    `visit ${dateOf(day)}`,
    `  weight ${Math.round(draw.between(150, 600))} kg`,
    `  condition ${Math.round(draw.between(4, 36)) / 4}`,
    `  obel ${Math.floor(draw.between(0, 3))}`,
    `  pulse ${foot} ${draw.one(['normal', 'raised', 'bounding'])}`,
    ...(draw.share() < 0.5 ? [`  insulin ${Math.round(draw.between(5, 220))} uIU/mL fasting`] : []),
    ...(draw.share() < 0.3 ? [`  acth ${Math.round(draw.between(10, 90))} pg/mL`] : []),
    `  feed "soaked hay, ${Math.round(draw.between(3, 9))} kg a day"`,
    ...madeFilm({ foot, size }, visit, draw),
    `  tape ${foot}`,
    `    toe-length ${Math.round(draw.between(70, 95))} mm`,
    `    heel-height ${Math.round(draw.between(25, 50))} mm`,
    `  plan ${foot}`,
    `    heel down ${heel} mm`,
    '    why "towards the live sole plane"',
    `  trim ${foot}`,
    `    heel down ${heel} mm`,
    '  next 4 weeks',
  ];
}

function madeFilm({ foot, size }: MadeFoot, visit: number, draw: Draw): string[] {
  const placed = (): string[] =>
    Object.entries(soundFoot).map(([name, [x, y]]) => {
      const at = [2000 + x * 10 * size + draw.scatter(4), 1000 - y * 10 * size + draw.scatter(4)] as const;
      return `      ${name} @ ${at[0].toFixed(1)}, ${at[1].toFixed(1)}`;
    });
  const reads = draw.share() < 1 / 3 ? 2 : 1;
  return [
    `  film ${foot} lateral "films/${visit}.png"`,
    '    scale 0.1 mm/px',
    '    ground 0, 1000 .. 2000, 1000',
    ...(reads === 1
      ? placed()
      : ['    read "first of two"', ...placed(), `    read "${draw.one(readers)}" +- 3`, ...placed()]),
  ];
}
