import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { Dice } from './dice.ts';

/**
 * One slip of the pen in the head of a visit, or in a line that says something grave: the call to the vet is told all the same, and not of
 * the visit before. Where the slip is in the date itself the visit has another day or none.
 */

const before = `hoof 1

case "Madder"
  animal    horse mare
  foaled    2012

visit 2026-03-04
  obel       0
  pulse      LF RF normal

  film LF lateral "films/madder-lf.png"
    p3.tip @ 10, 20

  tape LF
    toe-length 80 mm

  trim LF
    heel down 2 mm

`;
const head = 'visit 2026-04-04';
const grave: readonly (readonly string[])[] = [
  ['obel 4'],
  ['lameness LF 5'],
  ['sign fever'],
  ['sign recumbent'],
  ['sign refuses-to-move'],
  ['sign coronet-gap'],
  ['obel 2', 'pulse LF RF bounding'],
];

const letters = [...'abcdefghijklmnopqrstuvwxyz'];

function slip(line: string, dice: Dice): string {
  const at = Math.floor(dice.between(0, line.length));
  const [left, here, next, right] = [
    line.slice(0, at),
    line.slice(at, at + 1),
    line.slice(at + 1, at + 2),
    line.slice(at + 2),
  ];
  const slips: readonly [() => string, ...(() => string)[]] = [
    () => `${left}${next}${right}`,
    () => `${left}${here}${here}${next}${right}`,
    () => `${left}${next}${here}${right}`,
    () => `${left}${dice.pick(letters as [string, ...string[]])}${next}${right}`,
    () => line.charAt(0).toUpperCase() + line.slice(1),
    () => line.toUpperCase(),
    () => line.replace(' ', ': '),
    () => line.replace(' ', ''),
    () => line.replace(' ', 's '),
    () => line.replace(' ', ' = '),
  ];
  return dice.pick(slips)();
}

/** What cannot be read any more: the figure of a grade is gone, or a foot and its pulse have run into one another. */
const isGone = (line: string): boolean =>
  (/^(?:obel|lameness)/i.test(line) && !/\d/.test(line)) || /^pulse.*[LR][FH]\p{L}+bounding/iu.test(line);

describe('one slip of the pen', () => {
  it('in hundreds of lines silences no call, and leaves none to the visit before', () => {
    const dice = new Dice(20_260_404);
    const tried = new Set<string>();
    for (let round = 0; round < 20_000 && tried.size < 2000; round++) {
      const lines = [head, ...dice.pick(grave as [readonly string[], ...(readonly string[])[]])];
      const place = Math.floor(dice.between(0, lines.length));
      const right = lines[place] as string;
      lines[place] = slip(right, dice);
      const text = `${lines.join('\n  ')}\n`;
      if (lines[place] === right || isGone(lines[place]) || tried.has(text)) continue;
      tried.add(text);
      const { findings } = inspect(before + text);
      const call = findings.find(({ code, severity }) => code === 'visit/call-the-vet' && severity === 'error');
      expect(call?.message ?? '', text).toMatch(/^Call the vet/);
      expect(call?.message, text).not.toContain('4 March 2026');
      if (/(?<!\d)2026-04-04(?!\d)/.test(lines[0] as string)) expect(call?.message, text).toContain('4 April 2026');
    }
    expect(tried.size).toBeGreaterThan(900);
  });

  it('in the head of a block leaves its lines to no other foot', () => {
    const dice = new Dice(20_260_405);
    const heads: readonly [Head, ...Head[]] = [
      {
        above: 'film LF lateral "a.png"\n    p3.tip @ 1, 2\n    p3.wing @ 3, 4',
        head: 'film RF lateral "b.png"',
        below: 'p3.tip @ 11, 12\n    wall.top @ 9, 9',
      },
      { above: 'tape LF\n    toe-length 80 mm', head: 'tape RF', below: 'toe-length 95 mm\n    heel-height 30 mm' },
      { above: 'trim LF\n    heel down 2 mm', head: 'trim RF', below: 'heel down 9 mm\n    toe back 3 mm' },
      { above: 'plan LF\n    heel down 2 mm', head: 'trim RF', below: 'heel down 9 mm\n    toe back 3 mm' },
    ];
    const tried = new Set<string>();
    for (let round = 0; round < 6000; round++) {
      const { above, head: right, below } = dice.pick(heads);
      const wrong = slip(right, dice);
      // Two slips in one are another foot, or the same.
      if (wrong === right || /LF/i.test(wrong) || tried.has(above + wrong)) continue;
      tried.add(above + wrong);
      const alone = `${before}${head}\n  ${above}\n`;
      expect(ofLeftFore(`${alone}  ${wrong}\n    ${below}\n`), wrong).toEqual(ofLeftFore(alone));
    }
    expect(tried.size).toBeGreaterThan(300);
  });
});

interface Head {
  readonly above: string;
  readonly head: string;
  readonly below: string;
}

/** What the newest visit holds of the left fore foot: landmarks, values of the tape, cuts. */
function ofLeftFore(text: string): unknown {
  const visit = inspect(text).study.record.visits.at(-1)?.is;
  const own = <T extends { readonly foot: string }>(parts: readonly T[] = []): T[] =>
    parts.filter(({ foot }) => foot === 'LF');
  return {
    placings: own(visit?.films).flatMap(({ readings }) =>
      readings.flatMap(({ placings }) => placings.map(({ name, x, y }) => [name, x, y])),
    ),
    taped: own(visit?.tapes).flatMap(({ values }) => values.map(({ measure, quantity }) => [measure, quantity.value])),
    cuts: own(visit?.cuts).map(({ heelDown, toeBack }) => [heelDown?.value, toeBack?.value]),
  };
}
