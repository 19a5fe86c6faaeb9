import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';

/**
 * What DEVELOPERS.md says under «Adding» is tried: a copy of `shared` gets a landmark, a measure, a rule and a word, each by changes in the
 * files that are named here and in no other. It has to compile, and everything has to know them. Where a further file becomes
 * necessary, one of the two fails; and what must not be forgotten is left out once, to see that it does not compile.
 */

const root = join(import.meta.dirname, '..', '..');
// Below the root, so that the copy finds the libraries.
mkdirSync(join(root, 'out'), { recursive: true });
const home = mkdtempSync(join(root, 'out', 'recipes-'));
afterAll(() => rmSync(home, { recursive: true, force: true }));

interface Change {
  readonly file: string;
  /** Put before the first place where this stands; a new file where it is null. */
  readonly before: string | null;
  readonly text: string;
}

type Kind = 'landmark' | 'measure' | 'rule' | 'word';

const recipes: Readonly<Record<Kind, readonly Change[]>> = {
  landmark: [
    {
      file: 'shared/notation/landmarks.ts',
      before: "  lateral('sole.tip', {",
      text: `  lateral('heel.bulb', {
    name: 'Bulb of the heel',
    doc: 'The hindmost point of the bulb of the heel.',
    seen: 'usually', typical: [-140, 30], underCut: 'foot', underGrowth: 'lifted', proposed: { by: 'patch', on: 'capsule' },
  }),
`,
    },
  ],
  measure: [
    {
      file: 'shared/measures/depth.ts',
      before: "  lateral('depth', 'heel-height', 'mm', {",
      text: `  lateral('depth', 'bulb-height', 'mm', {
    words: 'height of the bulb',
    doc: 'Height of the bulb of the heel above the ground.',
    formula: 'Y heel.bulb',
  }, { needs: ['heel.bulb'], plane: 'bearing', afterCut: 'measured', of: (p) => p['heel.bulb'].y.plus(0) }),

`,
    },
    {
      file: 'shared/drawing/plate/measures-drawn.ts',
      before: "  'p3-length': null,",
      text: "  'bulb-height': null,\n",
    },
  ],
  rule: [
    {
      file: 'shared/findings/rules/bulb-low.ts',
      before: null,
      text: `import type { Rule } from '../rule.ts';

export const bulbLow: Rule = {
  code: 'made-up/bulb-low',
  severity: 'hint',
  title: 'Bulb below the ground',
  about: 'The bulb of the heel lies below the ground.',
  *onReading(_film, { reading, taking }) {
    if ((taking.values.get('bulb-height')?.value ?? 0) < 0) yield { at: reading.at, message: 'The bulb lies below the ground.' };
  },
};
`,
    },
    {
      file: 'shared/findings/catalogue.ts',
      before: 'import { expectAbsent',
      text: "import { bulbLow } from './rules/bulb-low.ts';\n",
    },
    { file: 'shared/findings/catalogue.ts', before: '  ...rangeRules', text: '  bulbLow,\n' },
  ],
  word: [
    {
      file: 'shared/notation/vocabulary.ts',
      before: "  { word: 'turnout',",
      text: `  { word: 'footing', in: ['visit'], takes: [[text('text')]], doc: 'What the animal walks on.', example: 'footing "sand"' },
`,
    },
  ],
};

/** The tree with every recipe followed, its text changed once more before it is written. */
function followed(name: string, last: (file: string, text: string) => string = (_file, text) => text): string {
  const tree = join(home, name);
  cpSync(join(root, 'shared'), join(tree, 'shared'), { recursive: true });
  cpSync(join(root, 'tsconfig.json'), join(tree, 'tsconfig.json'));
  writeFileSync(join(tree, 'package.json'), '{ "type": "module" }');
  const files = new Map<string, string>();
  for (const { file, before, text } of Object.values(recipes).flat()) {
    if (before === null) {
      files.set(file, text);
      continue;
    }
    const now = files.get(file) ?? readFileSync(join(root, file), 'utf8');
    const at = now.indexOf(before);
    if (at < 0) throw new Error(`${file} has no «${before}» any more: tell this test where to put the row`);
    files.set(file, now.slice(0, at) + text + now.slice(at));
  }
  for (const [file, text] of files) {
    mkdirSync(dirname(join(tree, file)), { recursive: true });
    writeFileSync(join(tree, file), last(file, text));
  }
  return tree;
}

/** What the compiler complains of, as `file: message`. */
function complaints(tree: string): string[] {
  const compiler = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
  const { stdout, stderr, error } = spawnSync(
    process.execPath,
    [compiler, '-p', join(tree, 'shared'), '--pretty', 'false'],
    {
      cwd: tree,
      encoding: 'utf8',
      timeout: 600_000,
    },
  );
  if (error) throw error;
  return [...`${stdout}${stderr}`.matchAll(/^(\S+)\(\d+,\d+\): error (.*)$/gm)].map(
    ([, file, message]) => `${file}: ${message}`,
  );
}

const asked = `
const at = (path) => import('./shared/' + path);
const { nameOfLandmark } = await at('views/landmark-names.ts');
const { everyStep } = await at('views/what-to-place.ts');
const { typicalPlaces } = await at('findings/landmarks/typical-places.ts');
const { findMeasure } = await at('measures/registry.ts');
const { codes } = await at('findings/catalogue.ts');
const { inspect } = await at('findings/inspect.ts');
const text = [
  'hoof 1', '', 'visit 2026-03-04', '  footing "sand"', '  film LF lateral "a.png"', '    scale 0.1 mm/px', '    ground 0, 1000 .. 2000, 1000',
  '    p3.tip @ 1500, 820', '    p3.wing @ 700, 750', '    toe.ground @ 1700, 1000', '    heel.ground @ 500, 1000', '    heel.bulb @ 300, 1050',
  '  trim LF', '    heel down 5 mm', '',
].join('\\n');
const { study, findings } = inspect(text);
const cut = study.cuts[0];
console.log(JSON.stringify({
  name: nameOfLandmark('heel.bulb'),
  asked: everyStep({ view: 'lateral' }).some(({ key }) => key === 'heel.bulb'),
  typical: typicalPlaces.lateral.get('heel.bulb'),
  measure: findMeasure('bulb-height')?.family,
  value: study.films[0].readings[0].taking.values.get('bulb-height')?.value,
  predicted: cut?.prediction?.value('bulb-height')?.value !== undefined,
  code: codes.some(({ code }) => code === 'made-up/bulb-low'),
  told: findings.filter(({ code }) => code === 'made-up/bulb-low').length,
  notation: findings.filter(({ code }) => code.startsWith('notation/')).map(({ message }) => message),
}));
`;

describe('the recipes', () => {
  it('touch so many files', () => {
    const count = (kind: Kind): number => new Set(recipes[kind].map(({ file }) => file)).size;
    expect({
      landmark: count('landmark'),
      measure: count('measure'),
      rule: count('rule'),
      word: count('word'),
    }).toEqual({
      landmark: 1,
      measure: 2,
      rule: 2,
      word: 1,
    });
  });

  it('are enough: all compiles, and everything knows what was added', { timeout: 600_000 }, () => {
    const tree = followed('whole');
    expect(complaints(tree)).toEqual([]);
    const { stdout, stderr } = spawnSync(process.execPath, ['--input-type=module', '--eval', asked], {
      cwd: tree,
      encoding: 'utf8',
      timeout: 600_000,
    });
    expect(stderr).toBe('');
    expect(JSON.parse(stdout)).toEqual({
      name: 'Bulb of the heel',
      asked: true,
      typical: [-140, 30],
      measure: 'depth',
      value: expect.closeTo(-5, 6),
      predicted: true,
      code: true,
      told: 1,
      notation: [],
    });
  });

  it('do not compile where something of a row is forgotten, or a name has a slip', { timeout: 600_000 }, () => {
    const forgotten: readonly (readonly [file: string, from: string, to: string])[] = [
      [
        'shared/notation/landmarks.ts',
        "    seen: 'usually', typical: [-140, 30], underCut: 'foot', underGrowth: 'lifted', proposed: { by: 'patch', on: 'capsule' },\n",
        '',
      ],
      [
        'shared/measures/depth.ts',
        "plane: 'bearing', afterCut: 'measured', of: (p) => p['heel.bulb']",
        "plane: 'bearing', of: (p) => p['heel.bulb']",
      ],
      ['shared/measures/depth.ts', "needs: ['heel.bulb'], plane: 'bearing',", "needs: ['heel.bulb'],"],
      ['shared/drawing/plate/measures-drawn.ts', "  'bulb-height': null,\n", ''],
      ['shared/findings/rules/bulb-low.ts', "get('bulb-height')", "get('bulb-heigth')"],
    ];
    const tree = followed('forgotten', (file, text) =>
      forgotten.reduce((now, [where, from, to]) => (where === file ? now.replace(from, to) : now), text),
    );
    const told = complaints(tree);
    const row = told.find((one) => one.startsWith('shared/notation/landmarks.ts: '));
    for (const field of ['seen', 'typical', 'underCut', 'underGrowth', 'proposed']) expect(row).toContain(field);
    for (const [file] of forgotten)
      expect(
        told.filter((one) => one.startsWith(`${file}: `)),
        file,
      ).not.toEqual([]);
  });
});
