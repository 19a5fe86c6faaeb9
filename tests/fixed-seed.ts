import fc from 'fast-check';

// The same random inputs in every run, so that a failure is of the change and can be had again; UNGULA_SEED tries others.
fc.configureGlobal({ seed: Number(process.env['UNGULA_SEED'] ?? 20_261_125) });
