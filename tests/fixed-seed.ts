import { appendFileSync } from 'node:fs';
import fc, { type RunDetails } from 'fast-check';

// The same random inputs in every run, so that a failure is of the change and can be had again; UNGULA_SEED tries others.
fc.configureGlobal({ seed: Number(process.env['UNGULA_SEED'] ?? 20_261_125) });

// UNGULA_DRAWN names a file to which each input goes as a line, so that it can be seen which were drawn.
const drawn = process.env['UNGULA_DRAWN'];
if (drawn !== undefined)
  fc.configureGlobal({
    ...fc.readConfigureGlobal(),
    verbose: fc.VerbosityLevel.VeryVerbose,
    reporter(run: RunDetails<unknown>) {
      const lines = run.executionSummary.map(({ value }) => `${fc.stringify(value)}\n`);
      appendFileSync(drawn, lines.join(''));
      if (run.failed) throw new Error(fc.defaultReportMessage(run));
    },
  });
