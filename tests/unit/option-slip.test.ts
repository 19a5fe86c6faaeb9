import { expect, it } from 'vitest';
import { commandLine } from '../../src/cli/command-line.ts';

it.each([
  [['course', 'a.hoof', '--colour', 'red'], 'there is no option --colour (ungula course'],
  [['course', 'a.hoof', '-x'], 'there is no option -x (ungula course'],
  [['course', 'a.hoof', '--all=1'], '--all takes no value (ungula course'],
  [
    ['course', 'a.hoof', '--foot'],
    '--foot wants a value: --foot VALUE, or --foot=VALUE where that begins with a dash (ungula',
  ],
  [['course', 'a.hoof', '--foot', '--all'], '--foot wants a value: --foot VALUE'],
  [['course', 'a.hoof', '--foot', 'LF', '--foot', 'RF'], '--foot is given twice (ungula course'],
])('%j is told in a sentence of ours', async (args, says) => {
  const err: string[] = [];
  const status = await commandLine(args, { out: () => undefined, err: (line) => err.push(line) });
  expect(status).toBe(2);
  expect(err).toEqual([expect.stringContaining(says)]);
  expect(err[0]?.startsWith(says.slice(0, 12))).toBe(true);
});
