// One configuration in a process of its own: prints the median and the 99th percentile of its runs, ms, as JSON.
import { load } from 'js-yaml';
import { parse as parseYaml, stringify } from 'yaml';
import { inspect } from '../../shared/findings/inspect.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { bigCase } from './big-case.ts';

const [what = '', visits = '1000', runs = '15'] = process.argv.slice(2);
const text = bigCase(Number(visits));

function placeless(): unknown {
  const { record } = assemble(parse(text));
  return JSON.parse(
    JSON.stringify(record, (key, value: unknown) => (/^(?:at|head|start|.+At)$/.test(key) ? undefined : value)),
  );
}

function job(): () => unknown {
  switch (what) {
    case 'parse':
      return () => parse(text);
    case 'check':
      return () => inspect(text);
    case 'keystroke': {
      const memory = new BlockMemory();
      inspect(text, undefined, memory);
      let step = 0;
      return () => inspect(text.replace('"visit 7"', `"visit 7 ${step++}"`), undefined, memory);
    }
    case 'yaml': {
      const facts = stringify(placeless());
      return () => parseYaml(facts);
    }
    case 'js-yaml': {
      const facts = stringify(placeless());
      return () => load(facts);
    }
    case 'json': {
      const facts = JSON.stringify(placeless());
      return () => JSON.parse(facts) as unknown;
    }
    default:
      throw new Error(`no such configuration: ${what}`);
  }
}

const run = job();
for (let i = 0; i < 3; i++) run();
const times = Array.from({ length: Number(runs) }, () => {
  const began = performance.now();
  run();
  return performance.now() - began;
}).sort((a, b) => a - b);
const at = (share: number): number => times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? NaN;
console.log(JSON.stringify({ what, visits: Number(visits), bytes: text.length, median: at(0.5), p99: at(0.99) }));
