import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { load } from 'js-yaml';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { jsonShapes, type CheckJson } from '../../shared/export/json-shapes.ts';
import { Program } from './command-line-program.ts';
import { caseText, filmText } from './plain-foot.ts';

/** Everything here runs the program as it ships, in a real git repository. */
const root = join(import.meta.dirname, '..', '..');
const guide = readFileSync(join(root, 'docs', 'git.md'), 'utf8');

/** The blocks of a language in the guide, in their order. */
const blocks = (language: string): string[] =>
  [...guide.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm)]
    .filter(([, named]) => named === language)
    .map(([, , text]) => text ?? '');

let program: Program;
let folder = '';
let env: NodeJS.ProcessEnv;
const at = (...names: string[]): string => join(folder, ...names);
const git = (...args: string[]): string => execFileSync('git', args, { cwd: folder, env, encoding: 'utf8' });
const shell = (line: string): ReturnType<typeof spawnSync> =>
  spawnSync('sh', ['-c', line], { cwd: folder, env, encoding: 'utf8' });
const commit = (message: string): ReturnType<typeof spawnSync> => shell(`git add -A && git commit -qm '${message}'`);

beforeAll(async () => {
  program = await Program.build();
  const command = join(program.folder, 'ungula');
  writeFileSync(command, `#!/bin/sh\nexec "${process.execPath}" "${program.path}" "$@"\n`);
  chmodSync(command, 0o755);
  env = {
    ...process.env,
    PATH: `${program.folder}:${process.env['PATH']}`,
    HOME: program.folder,
    GIT_CONFIG_NOSYSTEM: '1',
    LC_ALL: 'C.UTF-8',
    GIT_PAGER: 'cat',
  };
});
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'ungula-git-'));
  git('init', '-q', '-b', 'main');
  git('config', 'user.name', 'Ash');
  git('config', 'user.email', 'ash@example.org');
  return () => rmSync(folder, { recursive: true, force: true });
});
afterAll(() => program.remove());

const caseWith = (tip: number): string =>
  caseText(`${filmText({ 'p3.tip': [0, tip] })}\n\n  plan LF\n    heel down 1 mm`);

describe('a difference of two versions', () => {
  beforeEach(() => {
    const [attributes = ''] = blocks('gitattributes');
    writeFileSync(at('.gitattributes'), attributes);
    const [configure = ''] = blocks('sh');
    expect(configure.match(/git config/g)).toHaveLength(3);
    expect(shell(configure).status).toBe(0);
  });

  it('shows what a moved landmark did to the measures, and to what a plan would leave', () => {
    // Wing at 23 mm, tip at 16 mm, 80 mm apart: atan(7/80) = 5.0°; with the tip at 14 mm atan(9/80) = 6.4°.
    writeFileSync(at('a.hoof'), caseWith(16));
    expect(commit('first').status).toBe(0);
    writeFileSync(at('a.hoof'), caseWith(14));
    const shown = git('diff').split('\n');
    expect(shown).toContain('-    p3.tip @ 2000, 840');
    expect(shown).toContain('+    p3.tip @ 2000, 860');
    expect(shown).toContain('-    = palmar angle 5.0°');
    expect(shown).toContain('+    = palmar angle 6.4°');
    expect(shown.some((line) => /^\+ {4}= would leave: palmar angle \d\.\d°$/.test(line))).toBe(true);
    expect(shown.some((line) => /^@@ .* @@ {1,3}film LF lateral "x\.png"$/.test(line))).toBe(true);
    // What did not change by as much as shows is no difference.
    expect(shown.filter((line) => /^[-+] {4}= wall angle/.test(line))).toEqual([]);
    expect(commit('second').status).toBe(0);
    expect(git('log', '-p', '-1')).toContain('+    = palmar angle 6.4°');
    // A patch is of the file itself.
    expect(git('format-patch', '-1', '--stdout')).not.toContain('palmar angle');
  });

  it('shows a version that is no case as it is, and goes on', () => {
    writeFileSync(at('a.hoof'), caseWith(16));
    writeFileSync(at('b.hoof'), 'hoof 1\n');
    commit('first');
    writeFileSync(at('a.hoof'), Buffer.from([0x68, 0x6f, 0x6f, 0x66, 0xff, 0x0a, 0x1b, 0x5b, 0x41, 0x0a]));
    writeFileSync(at('b.hoof'), 'hoof 1\n\ncase "B"\n');
    const shown = git('diff', '--no-color');
    expect(shown).toContain('+hoof\ufffd');
    expect(shown).toContain('+\\u001b[A');
    expect(shown).toContain('-    = palmar angle 5.0°');
    expect(shown).toContain('+case "B"');
  });
});

describe('two people on one case', () => {
  beforeEach(() => {
    const [, attributes = ''] = blocks('gitattributes');
    writeFileSync(at('.gitattributes'), attributes);
    const configure = blocks('sh').find((text) => text.includes('merge.hoof'));
    expect(configure?.match(/git config/g)).toHaveLength(2);
    expect(shell(configure ?? '').status).toBe(0);
    writeFileSync(at('a.hoof'), caseWith(16));
    commit('first');
  });

  /** Ash's change on main, Rowan's on a branch; then they meet. */
  const meet = (ours: string, theirs: string): ReturnType<typeof spawnSync> => {
    git('checkout', '-qb', 'rowan');
    writeFileSync(at('a.hoof'), theirs);
    commit('of Rowan');
    git('checkout', '-q', 'main');
    writeFileSync(at('a.hoof'), ours);
    commit('of Ash');
    return shell('git merge -q --no-edit rowan');
  };
  const visit = (day: string): string => `${caseWith(16)}\nvisit ${day}\n  obel       1\n`;

  it('each adds a visit: both are there, where git alone finds a conflict', () => {
    expect(meet(visit('2026-04-01'), visit('2026-04-29')).status).toBe(0);
    const days = readFileSync(at('a.hoof'), 'utf8').match(/^visit \S+/gm);
    expect(days).toEqual(['visit 2026-03-04', 'visit 2026-04-01', 'visit 2026-04-29']);
    git('reset', '-q', '--hard', 'HEAD~1');
    git('config', '--remove-section', 'merge.hoof');
    expect(shell('git merge -q --no-edit rowan').status).toBe(1);
  });

  it('each places one landmark otherwise: git says so, both places stand in the file, and check tells of it', () => {
    const met = meet(caseWith(14), caseWith(15));
    expect(met.status).toBe(1);
    expect(git('status', '--porcelain')).toContain('UU a.hoof');
    const text = readFileSync(at('a.hoof'), 'utf8');
    expect(text).toContain('<<<<<<< ours\n    p3.tip @ 2000, 860\n=======\n    p3.tip @ 2000, 850\n>>>>>>> theirs\n');
    expect(shell('ungula check a.hoof').status).toBe(1);
  });
});

describe('before a commit', () => {
  interface Hook {
    id: string;
    name: string;
    entry: string;
    language: string;
    files: string;
  }
  const hooks = load(readFileSync(join(root, '.pre-commit-hooks.yaml'), 'utf8')) as Hook[];

  it('the hooks have what the manifest of pre-commit wants, and those of the guide are there', () => {
    // pre-commit.com, "Creating new hooks": id, name, entry and language are required (from memory).
    for (const hook of hooks)
      expect(hook).toMatchObject({
        id: expect.any(String) as string,
        name: expect.any(String) as string,
        entry: expect.stringMatching(/^ungula /) as string,
        language: 'system',
      });
    const [yaml = ''] = blocks('yaml');
    const wanted = load(yaml) as { repos: [{ hooks: { id: string }[] }] };
    expect(wanted.repos[0].hooks.map(({ id }) => id)).toEqual(hooks.map(({ id }) => id));
  });

  it.each(hooks)('$id takes the files as pre-commit gives them', ({ files, entry }) => {
    expect('cases/alder.hoof').toMatch(new RegExp(files));
    expect('cases/alder.hoof.txt').not.toMatch(new RegExp(files));
    writeFileSync(at('a.hoof'), caseWith(16));
    writeFileSync(at('b.hoof'), 'hoof 1\ncase "B"\n  height 148 cm\n');
    expect(shell(`${entry} a.hoof b.hoof`).status).toBe(0);
    // What is laid out once stays.
    expect(shell('ungula format --check b.hoof').status).toBe(entry.includes('--write') ? 0 : 1);
    writeFileSync(at('b.hoof'), 'hoof 1\n\ncase "B"\n  height 148\n');
    expect(shell(`${entry} a.hoof b.hoof`).status).toBe(entry.includes('check') ? 1 : 0);
  });

  it('the file of the guide lets a sound case in and stops one with an error', () => {
    const hook = blocks('sh').find((text) => text.includes('--cached')) ?? '';
    writeFileSync(at('.git', 'hooks', 'pre-commit'), hook);
    chmodSync(at('.git', 'hooks', 'pre-commit'), 0o755);
    writeFileSync(at('a case.hoof'), caseWith(16));
    writeFileSync(at('note.txt'), 'no case');
    expect(commit('sound').status).toBe(0);
    writeFileSync(at('a case.hoof'), caseWith(16).replace('heel down 1 mm', 'heel down 1'));
    const refused = commit('broken');
    expect(refused.status).not.toBe(0);
    // Git hands what a hook prints to standard error.
    expect(`${refused.stderr}`).toContain('error notation/missing-unit');
    expect(git('log', '--oneline').trim().split('\n')).toHaveLength(1);
  });
});

describe('in CI', () => {
  interface Step {
    run?: string;
    if?: string;
  }
  const workflow = load(readFileSync(join(root, 'docs', 'ci', 'github-actions.yml'), 'utf8')) as {
    jobs: { check: { steps: Step[] } };
  };
  const commands = workflow.jobs.check.steps.flatMap(({ run }) => (run?.includes('cli.js') ? [run] : []));

  beforeEach(() => {
    mkdirSync(at('.ungula', 'dist'), { recursive: true });
    writeFileSync(at('.ungula', 'package.json'), '{ "type": "module" }');
    copyFileSync(program.path, at('.ungula', 'dist', 'cli.js'));
    copyFileSync(join(root, 'examples', 'mistakes.hoof'), at('mistakes.hoof'));
  });

  it('the commands of the workflow tell an error by their status and write what is uploaded', () => {
    expect(commands).toHaveLength(2);
    const [check = '', write = ''] = commands;
    expect(shell(check).status).toBe(1);
    expect(shell(write).status).toBe(0);
    const log = JSON.parse(readFileSync(at('ungula.sarif'), 'utf8')) as { runs: [{ results: unknown[] }] };
    expect(log.runs[0].results.length).toBeGreaterThan(10);
    // A file that cannot be read fails the step.
    writeFileSync(at('latin.hoof'), Buffer.from([0x68, 0xe9, 0x0a]));
    expect(shell(write).status).not.toBe(0);
    const { run = '' } = workflow.jobs.check.steps.find((step) => step.run?.includes('add-matcher')) ?? {};
    expect(run).toContain('::add-matcher::.ungula/docs/ci/problem-matcher.json');
  });

  interface Pattern {
    regexp: string;
    file: number;
    line: number;
    column: number;
    severity: number;
    code: number;
    message: number;
  }
  const ofGitHub = JSON.parse(readFileSync(join(root, 'docs', 'ci', 'problem-matcher.json'), 'utf8')) as {
    problemMatcher: [{ pattern: [Pattern] }];
  };
  const ofTask = JSON.parse(blocks('json')[0] ?? '') as { tasks: [{ problemMatcher: { pattern: Pattern } }] };

  it.each<[string, Pattern, readonly string[]]>([
    ['GitHub', ofGitHub.problemMatcher[0].pattern[0], ['error', 'warning']],
    ['a task of VS Code', ofTask.tasks[0].problemMatcher.pattern, ['error', 'warning', 'info', 'hint']],
  ])('the problem matcher for %s reads each line as the JSON has it', (_, pattern, severities) => {
    const lines = `${shell('ungula check mistakes.hoof').stdout}`.trim().split('\n');
    const document: unknown = JSON.parse(`${shell('ungula check mistakes.hoof --format json').stdout}`);
    const { findings } = jsonShapes.check.parse(document) as CheckJson;
    const read = lines.flatMap((line) => {
      const match = new RegExp(pattern.regexp).exec(line);
      if (!match) return [];
      const part = (name: keyof Omit<Pattern, 'regexp'>): string => match[pattern[name]] ?? '';
      return [
        {
          file: part('file'),
          line: Number(part('line')),
          column: Number(part('column')),
          severity: part('severity'),
          code: part('code'),
          message: part('message'),
        },
      ];
    });
    const wanted = findings.filter(({ severity }) => severities.includes(severity));
    expect(wanted.length).toBeGreaterThan(10);
    expect(read).toEqual(
      wanted.map(({ file, line, column, severity, code, message }) => ({
        file,
        line,
        column,
        severity,
        code,
        message,
      })),
    );
  });
});
