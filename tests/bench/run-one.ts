// One configuration in a process of its own; prints what it measured as JSON: run-one.ts CONFIGURATION CASE VISITS RUNS.
import { load } from 'js-yaml';
import { parse as parseYaml } from 'yaml';
import { inspect } from '../../shared/findings/inspect.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { factsInYaml, factsOf } from './facts.ts';
import { fullCase } from './full-case.ts';
import { keystrokes, typed } from './keystrokes.ts';
import { summed, type Result } from './result.ts';
import { served } from './served.ts';
import { indexedCases } from './small-cases.ts';
import { usualCase } from './usual-case.ts';

interface Job {
  /** UTF-16 units of what it reads. */
  readonly bytes: number;
  run(step: number): unknown;
  /** Made ready before each run, and not measured. */
  before?(step: number): void;
}

const cases = { usual: usualCase, full: fullCase } as const;

const jobs: Readonly<Record<string, (text: string) => Job>> = {
  // A block is read when it is bound, so that parsing alone would measure next to nothing.
  'parse-and-bind': (text) => ({ bytes: text.length, run: () => assemble(parse(text)) }),
  check: (text) => ({ bytes: text.length, run: () => inspect(text) }),
  yaml: (text) => {
    const facts = factsInYaml(text);
    return { bytes: facts.length, run: () => parseYaml(facts) };
  },
  'js-yaml': (text) => {
    const facts = factsInYaml(text);
    return { bytes: facts.length, run: () => load(facts) };
  },
  json: (text) => {
    const facts = JSON.stringify(factsOf(text));
    return { bytes: facts.length, run: () => JSON.parse(facts) as unknown };
  },
  ...Object.fromEntries(
    keystrokes.map(({ what, place }) => [
      `keystroke-${what}`,
      (text: string): Job => {
        const memory = new BlockMemory();
        inspect(text, undefined, memory);
        const after = typed(text, place(text));
        let now = text;
        return {
          bytes: text.length,
          before: (step) => {
            // A text of its own, as a document has it, and not two halves that are joined while they are read.
            now = Buffer.from(after(step)).toString();
          },
          run: () => inspect(now, undefined, memory),
        };
      },
    ]),
  ),
};

/** Ever so long, so that the compiler has seen to what is run; no configuration is measured cold. */
const warming = 1500;

function measured(what: string, text: string, runs: number): Result {
  const make = jobs[what];
  if (!make) throw new Error(`no such configuration: ${what}`);
  const job = make(text);
  let step = 0;
  const once = (): number => {
    job.before?.(step);
    const began = performance.now();
    job.run(step++);
    return performance.now() - began;
  };
  const until = performance.now() + warming;
  for (let warm = 0; warm < 1 || (performance.now() < until && warm < 2000); warm++) once();
  return summed(what, job.bytes, Array.from({ length: runs }, once));
}

/** Those that measure in a way of their own. A configuration `index` gets a table of its own once it stands here or above. */
const others: Readonly<Record<string, (text: string, runs: number) => Promise<Result>>> = {
  'server-ungula': (text, runs) => served('ungula', text, runs),
  'server-yaml': (text, runs) => served('yaml', text, runs),
  index: (_text, runs) => indexedCases(runs),
};

const [what = '', kind = 'usual', visits = '1000', runs = '9'] = process.argv.slice(2);
if (what === '--list') console.log(JSON.stringify([...Object.keys(jobs), ...Object.keys(others)]));
else {
  const make = Object.hasOwn(cases, kind) ? cases[kind as keyof typeof cases] : undefined;
  if (!make) throw new Error(`no such case: ${kind}`);
  const text = make(Number(visits));
  const result = (await others[what]?.(text, Number(runs))) ?? measured(what, text, Number(runs));
  console.log(JSON.stringify(result));
}
