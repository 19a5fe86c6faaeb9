import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { bundledNow, type Output } from '../bundled-now.ts';
// @ts-expect-error -- plain JavaScript
import { outputs } from '../../esbuild.mjs';

export interface Reported {
  value: number;
  unit: string;
  sd: number;
  axis?: string;
}

export type ReportedMeasures = Record<string, Reported>;

export interface ReportedWork {
  foot: string;
  line: number;
  predicted?: ReportedMeasures | null;
  delta?: number | null;
  ontoe?: { delta: number; predicted: ReportedMeasures };
  solecut?: Record<string, number | null> | null;
  wallleft?: number | null;
  sides?: { delta: number; predicted: ReportedMeasures };
}

export interface ReportedFilm {
  foot: string;
  view: string;
  line: number;
  scale: number | null;
  readings: { reader: string | null; measures: ReportedMeasures }[];
}

export interface ReportedVisit {
  date: string;
  line: number;
  films: ReportedFilm[];
  plans: ReportedWork[];
  trims: ReportedWork[];
}

interface Report {
  ungula: number;
  cases: { file: string; case: string; visits: ReportedVisit[] }[];
}

let commandLine: Promise<string> | undefined;

/** One start of the program for all texts; the first visit of each, by its key. */
export async function measured(texts: ReadonlyMap<string, string>): Promise<Map<string, ReportedVisit>> {
  const program = await (commandLine ??= bundledNow('property', (outputs as { commandLine: Output }).commandLine));
  const folder = mkdtempSync(join(tmpdir(), 'random-feet-'));
  try {
    for (const [key, text] of texts) writeFileSync(join(folder, `${key}.hoof`), text);
    const run = spawnSync(process.execPath, [program, 'measure', '--format', 'json', folder], {
      encoding: 'utf8',
      maxBuffer: 2 ** 28,
    });
    // 1 says that a case has an error-level finding, as a cut into live sole may be.
    if (run.status !== 0 && run.status !== 1) throw new Error(`exit status ${run.status}: ${run.stderr}`);
    const report = JSON.parse(run.stdout) as Report;
    if (report.ungula !== 1) throw new Error(`version ${report.ungula} of the report, not 1`);
    const visits = new Map<string, ReportedVisit>();
    for (const { file, visits: ofCase } of report.cases) {
      const [visit] = ofCase;
      if (visit) visits.set(basename(file, '.hoof'), visit);
    }
    return visits;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
