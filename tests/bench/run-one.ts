// One configuration in a process of its own: prints the median and the 99th percentile of its runs, ms, as JSON.
import { load } from 'js-yaml';
import { parse as parseYaml, stringify } from 'yaml';
import { inspect } from '../../shared/findings/inspect.ts';
import { BlockMemory, parse } from '../../shared/notation/parse.ts';
import { assemble } from '../../shared/record/assemble.ts';
import { bigCase } from './big-case.ts';
import { folderOfSmallCases, indexed } from './small-cases.ts';

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
    case 'index': {
      const folder = folderOfSmallCases(Number(visits));
      return () => indexed(folder);
    }
    default:
      throw new Error(`no such configuration: ${what}`);
  }
}

const run = job();
const time = async (): Promise<number> => {
  const began = performance.now();
  const made = run();
  // A turn of the event loop for what is done at once would be measured with it.
  if (made instanceof Promise) await made;
  return performance.now() - began;
};
for (let i = 0; i < 3; i++) await time();
const times: number[] = [];
for (let i = 0; i < Number(runs); i++) times.push(await time());
times.sort((a, b) => a - b);
const at = (share: number): number => times[Math.min(times.length - 1, Math.floor(share * times.length))] ?? NaN;
console.log(JSON.stringify({ what, visits: Number(visits), bytes: text.length, median: at(0.5), p99: at(0.99) }));
