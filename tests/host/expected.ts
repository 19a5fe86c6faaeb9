import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { Failure } from './failure.ts';

export type Severity = 'error' | 'warning' | 'info' | 'hint';

export interface Finding {
  file: string;
  line: number;
  severity: Severity;
  code: string;
  message: string;
}

export interface FilmValue {
  filmLine: number;
  value: number;
}

/** What the command line says about one case file; the editor has to say the same. */
export interface CaseFile {
  /** Path inside the workspace folder, with forward slashes. */
  name: string;
  path: string;
  findings: Finding[];
  palmarAngles: FilmValue[];
}

interface MeasureAnswer {
  cases: {
    file: string;
    visits: {
      films: {
        line: number;
        readings: { measures: Record<string, { value: number } | undefined> }[];
      }[];
    }[];
  }[];
}

export function expectedFor(cli: string, workspace: string): CaseFile[] {
  const { findings } = ask<{ findings: Finding[] }>(cli, 'check', workspace);
  const { cases } = ask<MeasureAnswer>(cli, 'measure', workspace);
  const names = readdirSync(workspace, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.hoof'));
  const files = names.sort().map((name) => {
    const path = join(workspace, name);
    const isThis = (entry: { file: string }): boolean => resolve(workspace, entry.file) === path;
    return {
      name,
      path,
      findings: findings.filter(isThis),
      palmarAngles: cases.filter(isThis).flatMap((one) => anglesOf(one)),
    };
  });
  const placed = files.reduce((sum, file) => sum + file.findings.length, 0);
  if (placed !== findings.length) {
    const names = [...new Set(findings.map(({ file }) => file))].join(', ');
    throw new Failure(
      `check named files that are not in the folder it was run in: ${names}`,
      'the command line should name files relative to the current folder, or absolute',
    );
  }
  return files;
}

function anglesOf(one: MeasureAnswer['cases'][number]): FilmValue[] {
  return one.visits
    .flatMap((visit) => visit.films)
    .flatMap((film) => film.readings.map((reading) => ({ line: film.line, angle: reading.measures['palmar-angle'] })))
    .flatMap(({ line, angle }) => (angle === undefined ? [] : [{ filmLine: line, value: angle.value }]));
}

function ask<T>(cli: string, command: 'check' | 'measure', workspace: string): T {
  // Run in the folder, on the folder: a name relative to either is then the same name.
  const answer = spawnSync(process.execPath, [cli, command, '--format', 'json', '.'], {
    cwd: workspace,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
    timeout: 60_000,
  });
  // 1 only says that there are findings of error level.
  if (answer.error !== undefined || (answer.status !== 0 && answer.status !== 1)) {
    throw new Failure(
      `ungula ${command} --format json ended with ${answer.error?.message ?? `status ${answer.status}`}: ${answer.stderr}`,
      `run node ${cli} ${command} --format json ${workspace} by hand and mend what it says`,
    );
  }
  try {
    return JSON.parse(answer.stdout) as T;
  } catch {
    throw new Failure(
      `ungula ${command} --format json did not print one JSON document but: ${answer.stdout.slice(0, 200)}`,
      'print nothing but the document on standard output in that format',
    );
  }
}

/** A hint shows as dots under the word, never as a row or a number. */
export function shownAsProblems(findings: readonly Finding[]): Finding[] {
  return findings.filter(({ severity }) => severity !== 'hint');
}
