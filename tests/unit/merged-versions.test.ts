import { describe, expect, it } from 'vitest';
import { mergedVersions } from '../../shared/edits/merged-versions.ts';
import { textOf, versionParts } from '../../shared/edits/version-parts.ts';
import { parse } from '../../shared/notation/parse.ts';

const base = `hoof 1

case "Sedge"
  animal    pony mare

visit 2026-03-04 "first"
  weight     210 kg
  obel       2

  film LF lateral "a.png"
    scale   0.1 mm/px
    p3.tip            @ 100, 200
    p3.wing           @ 300, 190

  plan LF
    heel  down 3 mm
    toe   back 2 mm
`;
const changed = (from: string, to: string, text = base): string => {
  expect(text).toContain(from);
  return text.replace(from, () => to);
};
const merged = (ours: string, theirs: string) => mergedVersions({ base, ours, theirs });

describe('two people change one case', () => {
  it.each([
    ['a line beside the other’s line', ['210 kg', '214 kg'], ['obel       2', 'obel       1']],
    ['a landmark beside the other’s landmark', ['@ 100, 200', '@ 101, 200'], ['@ 300, 190', '@ 300, 188']],
    ['the header of a film and a line in it', ['"a.png"\n', '"a.png" # the first\n'], ['0.1 mm/px', '0.2 mm/px']],
    ['a title and a line of the visit', ['"first"', '"first look"'], ['210 kg', '214 kg']],
    [
      'a new line where the other changes one',
      ['  obel       2\n', '  obel       2\n  crest      3\n'],
      ['210 kg', '214 kg'],
    ],
  ] as const)('%s: both changes stand', (_what, [from, to], [other, otherTo]) => {
    const { text, conflicts } = merged(changed(from, to), changed(other, otherTo));
    expect(conflicts).toBe(0);
    expect(text).toBe(changed(other, otherTo, changed(from, to)));
  });

  it('a visit at the end of each: two visits, in the order of their days, whoever is first', () => {
    const april = '\nvisit 2026-04-01\n  obel       1\n';
    const may = '\nvisit 2026-05-02\n  obel       0\n';
    const wanted = { text: base + april + may, conflicts: 0 };
    expect(merged(base + april, base + may)).toEqual(wanted);
    expect(merged(base + may, base + april)).toEqual(wanted);
    // The last line of a file that has no end.
    expect(merged(base + april.trimEnd(), base + may).text).toBe(wanted.text);
  });

  it('the same visit added by both is one, with what each has written', () => {
    const one = '\nvisit 2026-04-01\n  obel       1\n';
    const other = '\nvisit 2026-04-01\n  weight     214 kg\n';
    expect(merged(base + one, base + other)).toEqual({
      text: `${base}\nvisit 2026-04-01\n  obel       1\n  weight     214 kg\n`,
      conflicts: 0,
    });
  });

  it('one thing changed otherwise by both stands twice between marks, and nothing else is doubled', () => {
    const { text, conflicts } = merged(
      changed('obel       2', 'obel       3', changed('@ 100, 200', '@ 101, 200')),
      changed('obel       2', 'obel       1'),
    );
    expect(conflicts).toBe(1);
    expect(text).toBe(
      changed(
        '  obel       2\n',
        '<<<<<<< ours\n  obel       3\n=======\n  obel       1\n>>>>>>> theirs\n',
        changed('@ 100, 200', '@ 101, 200'),
      ),
    );
  });

  it('a cut is one thing: its heel by one and its toe by the other is what nobody has planned', () => {
    const { text, conflicts } = merged(changed('down 3 mm', 'down 5 mm'), changed('back 2 mm', 'back 4 mm'));
    expect(conflicts).toBe(1);
    expect(text).toContain(
      '<<<<<<< ours\n\n  plan LF\n    heel  down 5 mm\n    toe   back 2 mm\n=======\n\n  plan LF\n    heel  down 3 mm\n    toe   back 4 mm\n>>>>>>> theirs\n',
    );
    // What stands between marks is told, and no plan is made past it: each mark is a line that nobody can read.
    expect(parse(text).blocks.flatMap(({ block }) => block.problems).length).toBeGreaterThan(0);
  });

  it('what one takes out is gone, unless the other has changed it', () => {
    const without = changed('  obel       2\n', '');
    expect(merged(without, changed('210 kg', '214 kg'))).toEqual({
      text: changed('210 kg', '214 kg', without),
      conflicts: 0,
    });
    expect(merged(without, changed('obel       2', 'obel       1')).text).toContain(
      '<<<<<<< ours\n=======\n  obel       1\n>>>>>>> theirs\n',
    );
  });

  describe('of a word that may stand many times', () => {
    const told = changed(
      '  obel       2\n',
      '  sign fever\n  vet seen 2026-03-05 "rest"\n  owner "short"\n  pulse LF raised\n  accept scale/bone-length because "a"\n  | short on stones\n',
    );
    const both = (ours: string, theirs: string, from = told) => mergedVersions({ base: from, ours, theirs });

    it.each([
      ['a sign', 'sign fever', 'sign fever refuses-to-move', 'sign refuses-to-move'],
      ['the look of the vet', 'seen 2026-03-05 "rest"', 'seen 2026-03-05 "walk"', 'seen 2026-03-06 "rest"'],
      ['what the owner says', 'owner "short"', 'owner "sore"', 'owner "sound"'],
      ['a pulse', 'pulse LF raised', 'pulse LF strong', 'pulse LF bounding'],
      ['why something is accepted', 'because "a"', 'because "b"', 'because "c"'],
      ['prose', '| short on stones', '| sore on stones', '| short on grass'],
    ])('%s changed otherwise by both, or taken out by one, is a conflict', (_what, from, to, otherTo) => {
      const [own, other] = [changed(from, to, told), changed(from, otherTo, told)];
      const { text, conflicts } = both(own, other);
      expect(conflicts).toBe(1);
      expect(text).toContain(to);
      expect(text).toContain(otherTo);
      const line = told.split('\n').find((one) => one.includes(from));
      const without = changed(`${line}\n`, '', told);
      for (const gone of [both(without, other), both(other, without)]) {
        expect(gone.conflicts).toBe(1);
        expect(gone.text).toContain(otherTo);
      }
    });

    it('two changed lines, one by each, are no conflict, nor are two new ones about different things', () => {
      const two = changed('  owner "short"\n', '  owner "short"\n  owner "tired"\n', told);
      const [own, other] = [changed('"short"', '"sore"', two), changed('"tired"', '"fresh"', two)];
      expect(both(own, other, two)).toEqual({ text: changed('"tired"', '"fresh"', own), conflicts: 0 });
      const [left, right] = [`pulse LF raised\n  pulse RF raised`, `pulse LF raised\n  pulse LH raised`];
      const added = both(changed('pulse LF raised', left, told), changed('pulse LF raised', right, told));
      expect(added.conflicts).toBe(0);
      expect(added.text).toMatch(/pulse LF raised\n {2}pulse RF raised\n {2}pulse LH raised\n/);
    });

    it('a new line about one thing by each, said otherwise, is a conflict', () => {
      const [own, other] = ['strong', 'normal'].map((pulse) => changed('  obel       2\n', `  pulse LH ${pulse}\n`));
      expect(merged(own ?? '', other ?? '').conflicts).toBe(1);
    });
  });

  it('of two lines about one thing each takes out another: both are gone', () => {
    const two = changed(
      'visit 2026-03-04',
      'limits\n  palmar-angle >= 2 deg\n  palmar-angle <= 8 deg\n\nvisit 2026-03-04',
    );
    const { text, conflicts } = mergedVersions({
      base: two,
      ours: changed('  palmar-angle >= 2 deg\n', '', two),
      theirs: changed('  palmar-angle <= 8 deg\n', '', two),
    });
    expect([conflicts, text.includes('palmar-angle')]).toEqual([0, false]);
  });

  it('another end of every line is no change: lines end as ours do', () => {
    const [own, other] = [changed('210 kg', '214 kg'), changed('down 3 mm', 'down 4 mm')];
    const both = changed('down 3 mm', 'down 4 mm', own);
    const windows = (text: string): string => text.replaceAll('\n', '\r\n');
    expect(merged(windows(own), other)).toEqual({ text: windows(both), conflicts: 0 });
    expect(merged(own, windows(other))).toEqual({ text: both, conflicts: 0 });
  });

  it('a remark goes with the line below it, and lines that nobody can read are kept', () => {
    const ours = changed('  obel       2\n', '  # on soft ground\n  obel       2\n');
    const theirs = changed('  weight     210 kg\n', '  weight     210 kg\n  wieght     212 kg\n');
    expect(merged(ours, theirs).text).toBe(
      changed('  weight     210 kg\n', '  weight     210 kg\n  wieght     212 kg\n', ours),
    );
  });

  it('a file that each has made anew is put together too', () => {
    const { conflicts, text } = mergedVersions({
      base: '',
      ours: base,
      theirs: changed('obel       2', 'obel       1'),
    });
    expect(conflicts).toBe(1);
    expect(text.split('\n').filter((line) => line.startsWith('visit'))).toHaveLength(1);
  });

  it('marks are as long as git wants them', () => {
    const { text } = mergedVersions(
      { base, ours: changed('210 kg', '211 kg'), theirs: changed('210 kg', '212 kg') },
      12,
    );
    expect(text).toMatch(/^<{12} ours$/m);
    expect(text).toMatch(/^={12}$/m);
  });
});

it('the parts of a text are that text', () => {
  for (const text of [
    base,
    '',
    '\n\n',
    '# only a remark\n',
    'hoof 1',
    `${base}# behind all\n`,
    base.replaceAll('\n', '\r\n'),
  ])
    expect(versionParts(text).map(textOf).join('')).toBe(text);
});
