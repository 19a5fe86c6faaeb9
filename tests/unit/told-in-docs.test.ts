import { readFileSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import type { MeasureName } from '../../shared/measures/names.ts';
import { Program } from './command-line-program.ts';
import { Follower, commandsOf, fencedBlocks, isAsShown } from './told-commands.ts';

/** The pages that somebody may follow word by word. */
const docs = resolve(import.meta.dirname, '..', '..', 'docs');
const read = (name: string): string => readFileSync(join(docs, name), 'utf8');
const pages = ['tutorial.md', ...readdirSync(join(docs, 'how-to')).map((name) => `how-to/${name}`)];

let program: Program;
beforeAll(async () => {
  program = await Program.build({ pdf: true });
});
afterAll(() => program.remove());

/** What goes otherwise than the page says, for somebody who follows it from its beginning. */
function slipsOf(page: string): string[] {
  const follower = new Follower(program.path);
  const written = new Map<string, string>();
  const slips: string[] = [];
  try {
    for (const { language, file, text, line } of fencedBlocks(page)) {
      if (language === 'hoof') {
        if (file === null) {
          slips.push(`line ${line}: the block names no file`);
          continue;
        }
        follower.append(file, text);
        written.set(file, (written.get(file) ?? '') + text);
        for (const { severity, code } of inspect(written.get(file) ?? '').findings)
          if (severity === 'error') slips.push(`line ${line}: ${code}`);
      }
      for (const { command, shown } of language === 'console' ? commandsOf(text) : []) {
        const printed = follower.run(command);
        if (!isAsShown(printed, shown)) slips.push(`line ${line}: ${command} prints\n${printed.join('\n')}`);
      }
    }
  } finally {
    follower.remove();
  }
  return slips;
}

describe('who follows a page', () => {
  it.each(pages)('gets what %s shows, and no error in what it lets one write', (name) => {
    expect(slipsOf(read(name))).toEqual([]);
  });

  it('is shown every step of a case in the tutorial, and shown something of each', () => {
    const commands = fencedBlocks(read('tutorial.md')).flatMap(({ language, text }) =>
      language === 'console' ? commandsOf(text) : [],
    );
    const asked = new Set(commands.flatMap(({ command }) => /ungula (\w+)/.exec(command)?.[1] ?? []));
    expect(asked).toEqual(new Set(['check', 'measure', 'plan', 'report', 'course', 'format']));
    for (const { command, shown } of commands)
      if (command.includes('ungula ')) {
        if (command.startsWith('cp ')) expect(shown).toEqual([]);
        else expect(shown.filter((line) => line !== '…').length, command).toBeGreaterThan(0);
      }
  });

  it('would be told of a slip: in a line of the case, in a command, in what is shown', () => {
    const page = read('how-to/lesson-for-a-class.md');
    const slip = (from: string, to: string): string => {
      expect(page).toContain(from);
      return slipsOf(page.replace(from, to)).join('\n');
    };
    expect(slip('animal    horse', 'animal    house')).toContain('notation/unknown-choice');
    expect(slip('--key key.hoof', '--kye key.hoof')).toContain('--kye');
    expect(slip('4.7 mm off', '4.6 mm off')).toContain('4.7 mm off');
    expect(slip('hoof key.hoof', 'hoof')).toContain('names no file');
  });
});

describe('what is shown', () => {
  it('is the lines that are printed, less those that `…` stands for', () => {
    expect(isAsShown(['a', 'b', 'c'], ['a', 'b', 'c'])).toBe(true);
    expect(isAsShown(['a', 'b', 'c'], ['a', '…'])).toBe(true);
    expect(isAsShown(['a', 'b', 'c'], ['…', 'c'])).toBe(true);
    expect(isAsShown(['a bee', 'c'], ['a …', 'c'])).toBe(true);
    expect(isAsShown([], [])).toBe(true);
  });

  it('is no line more, fewer or otherwise', () => {
    expect(isAsShown(['a', 'b'], ['a'])).toBe(false);
    expect(isAsShown(['a'], ['a', '…'])).toBe(false);
    expect(isAsShown(['a', 'b'], ['b', '…'])).toBe(false);
    expect(isAsShown(['a bee'], ['b …'])).toBe(false);
    expect(isAsShown(['a'], [])).toBe(false);
  });
});

describe('the figures of the explanation', () => {
  const text = fencedBlocks(read('tutorial.md'))
    .flatMap(({ file, text }) => (file === 'alder.hoof' ? [text] : []))
    .join('');
  const films = inspect(text).study.films.map(({ readings }) => readings[0]?.taking.values);
  const value = (film: number, name: MeasureName): { value: number; sd: number } => {
    const found = films[film]?.get(name);
    if (!found) throw new Error(`${name} is not measured`);
    return found;
  };
  const page = read('explanation.md').replaceAll('\n', ' ');
  const degrees = 180 / Math.PI;

  it('of ± are those that a pencil gives: two lines, each with two ends of 0.5 mm', () => {
    const bone = value(0, 'p3-length').value;
    // The marker of 100 mm, and the ends of the ground line, from the tutorial's text.
    const ground = (Math.hypot(1099.5 - 144, 1048.5 - 1022) * 100) / Math.hypot(90 - 77, 993 - 443.5);
    expect(page).toContain(`${bone.toFixed(1)} mm apart`);
    expect(page).toContain(`${ground.toFixed(1)} mm apart`);
    const [ofBone, ofGround] = [bone, ground].map((length) => (Math.SQRT2 * 0.5) / length) as [number, number];
    for (const one of [ofBone, ofGround]) {
      expect(page).toContain(one.toFixed(4));
      expect(page).toContain(`${(one * degrees).toFixed(2)}°`);
    }
    const both = Math.hypot(ofBone, ofGround) * degrees;
    expect(page).toContain(`= ${both.toFixed(2)}°`);
    // The pencil leaves out that wing and tip lie at different heights over the ground: less than 2 %.
    expect(value(0, 'palmar-angle').sd / both).toBeCloseTo(1, 1);
  });

  it.each([
    ['palmar angle', 'palmar-angle', '°', 2, 'clear'],
    ['sole depth at the tip', 'sole-depth.tip', ' mm', 1, 'within the error'],
  ] as const)('of %s are what two films differ by, and what placing explains', (words, name, unit, floor, verdict) => {
    const [before, after] = [value(0, name), value(1, name)];
    const differs = Math.abs(after.value - before.value);
    const explained = 1.96 * Math.hypot(before.sd, after.sd);
    expect(page).toContain(
      `| ${words} | ${differs.toFixed(1)}${unit} | ${explained.toFixed(1)}${unit} | ${floor}${unit} | ${verdict} |`,
    );
    expect(differs > Math.max(explained, floor)).toBe(verdict === 'clear');
  });
});
