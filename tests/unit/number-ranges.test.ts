import { describe, expect, it } from 'vitest';
import { sayRange } from '../../shared/notation/in-range.ts';
import { measuredValue, tapedValue } from '../../shared/notation/ranges.ts';
import type { Argument, Form, MeasuredRanges, Range } from '../../shared/notation/signature.ts';
import { findUnit } from '../../shared/notation/units.ts';
import {
  blocks,
  formsIn,
  limitForms,
  placingForm,
  statements,
  tapeForm,
  type Container,
} from '../../shared/notation/vocabulary.ts';
import { inspect } from '../../shared/findings/inspect.ts';

/**
 * Every number of every word: one just inside each end of its range is taken into the record, one just outside is told
 * at the number and leaves no trace in the record. The table is the vocabulary itself, so that a new word is in it.
 */

const openings: Readonly<Partial<Record<Container, string>>> = {
  file: '',
  case: 'case "X"\n',
  limits: 'limits\n',
  visit: 'visit 2026-03-04\n',
  film: 'visit 2026-03-04\nfilm LF lateral "x.png"\n',
  photo: 'visit 2026-03-04\nphoto LF lateral "x.png"\n',
  read: 'visit 2026-03-04\nfilm LF lateral "x.png"\nread "A"\n',
  tape: 'visit 2026-03-04\ntape LF\n',
  plan: 'visit 2026-03-04\nplan LF\n',
  trim: 'visit 2026-03-04\ntrim LF\n',
};

/** A number that a line holds, with what stands before and behind it. */
interface Slot {
  readonly name: string;
  readonly opening: string;
  readonly before: string;
  readonly behind: string;
  readonly range: Range;
  /** A multiple of it is wanted. */
  readonly step: number;
  /** The unit's size in what the record counts in. */
  readonly size: number;
}

const samples: Readonly<Record<string, string>> = {
  text: '"a text"',
  date: '2026-03-04',
  foot: 'LF',
  measure: 'palmar-angle',
  relation: '>=',
  word: 'fever',
  finding: 'range/palmar-angle',
};

const measuredUnits = { length: 'mm', angle: 'deg', share: '%', plain: '' } as const;

function sample(argument: Argument): string {
  switch (argument.take) {
    case 'number':
      return String(argument.range.low || argument.range.high);
    case 'quantity':
      return `${argument.range.high} ${argument.range.unit}`;
    case 'measured':
      return '5 deg';
    case 'choice':
      return argument.of[0] ?? '';
    case 'code':
      return argument.characters ? '9'.repeat(3) + '0'.repeat(argument.characters - 3) : 'S07';
    case 'point':
      return '1, 2';
    case 'segment':
      // At 200 px the shortest marker gives the smallest pixel and the longest the largest.
      return '1, 2 .. 201, 2';
    case 'spread':
      return argument.measured ? '+- 1 deg' : '+- 1';
    case 'mark':
      return argument.text;
    default:
      return samples[argument.take] ?? '';
  }
}

function* slotsOf(argument: Argument): Iterable<Pick<Slot, 'before' | 'behind' | 'range' | 'step' | 'size'>> {
  const bare = { before: '', behind: '', step: 0, size: 1 };
  const measured = function* (ranges: MeasuredRanges, before: string): Iterable<ReturnType<typeof one>> {
    for (const [kind, range] of Object.entries(ranges) as [keyof MeasuredRanges, Range][])
      yield one({ before, behind: kind === 'plain' ? '' : ` ${measuredUnits[kind]}`, range });
  };
  const one = (some: Partial<Slot> & Pick<Slot, 'range'>) => ({ ...bare, ...some });
  switch (argument.take) {
    case 'number':
      yield one({ range: argument.range, step: argument.step ?? 0 });
      break;
    case 'quantity': {
      const { range, dimension } = argument;
      const unit = findUnit(range.unit, dimension);
      if (!unit) throw new Error(`${range.unit} is no unit of ${dimension}`);
      yield one({ range, behind: ` ${range.unit}`, size: unit.size });
      break;
    }
    case 'measured':
      yield* measured(argument.ranges, '');
      break;
    case 'spread':
      if (argument.measured) yield* measured(argument.ranges, '+- ');
      else yield one({ before: '+- ', range: argument.range });
      break;
    case 'point':
      yield one({ behind: ', 7', range: argument.range });
      yield one({ before: '7, ', range: argument.range });
      break;
    case 'segment':
      for (let place = 0; place < 4; place++) {
        const ends = ['1', '2', '3', '4'];
        const written = (from: number, to: number): string =>
          ends
            .slice(from, to)
            .map((end, index) => (from + index === 1 ? `${end} .. ` : from + index === 3 ? end : `${end}, `))
            .join('');
        const after = ['', ', ', ' .. ', ', '][place + 1] ?? '';
        yield one({ before: written(0, place), behind: `${after}${written(place + 1, 4)}`, range: argument.range });
      }
      break;
  }
}

function* slotsIn(word: string, opening: string, forms: readonly Form[]): Iterable<Slot> {
  for (const form of forms)
    for (const [at, argument] of form.entries())
      for (const slot of slotsOf(argument)) {
        const around = (from: number, to?: number): string =>
          form
            .slice(from, to)
            .filter((other) => !other.optional || (other !== argument && other.name === argument.name))
            .map(sample)
            .join(' ');
        const before = [word, around(0, at), slot.before]
          .filter((piece) => piece !== '')
          .join(' ')
          .replace(/ $/, '');
        const rest = around(at + 1);
        yield {
          ...slot,
          name: `${word} ${argument.name}${slot.before}…${slot.behind}`,
          opening,
          before: `${before} `,
          behind: `${slot.behind}${rest === '' ? '' : ` ${rest}`}`,
        };
      }
}

const slots: readonly Slot[] = [
  ...[...blocks, ...statements].flatMap((row) =>
    row.in.flatMap((place) => [...slotsIn(row.word, openings[place] ?? '', formsIn(row, place))]),
  ),
  ...slotsIn('p3.tip', openings.film ?? '', [placingForm]),
  ...slotsIn('p3.tip', openings.read ?? '', [placingForm]),
  ...slotsIn('heel-surplus', openings.tape ?? '', [tapeForm]),
  ...slotsIn('sole-depth.tip', openings.limits ?? '', limitForms),
];

/** The record without the places in the text. */
function recordOf(text: string): unknown {
  const { record } = inspect(text).study;
  return JSON.parse(
    JSON.stringify(record, (key, value: unknown) =>
      /(?:^a|A)t$|^(?:start|end|line|head|within)$/.test(key) ? undefined : value,
    ),
  );
}

function numbersIn(value: unknown): number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

/** Plain decimals, as a person writes them. */
const written = (value: number): string => String(Number(value.toFixed(9)));

describe('every number of the vocabulary', () => {
  it('is in the table', () => {
    expect(slots.length).toBeGreaterThan(60);
    for (const take of ['number', 'quantity', 'measured', 'spread', 'point', 'segment'])
      expect(
        [...blocks, ...statements]
          .flatMap((row) => row.takes)
          .concat([placingForm, tapeForm], limitForms)
          .flat()
          .some((one) => one.take === take),
      ).toBe(true);
  });

  it('has a range that begins below its end', () => {
    for (const { name, range } of slots) {
      expect(Number.isFinite(range.low) && Number.isFinite(range.high), name).toBe(true);
      expect(range.low, name).toBeLessThan(range.high);
    }
  });

  it.each(slots.map((slot) => [slot.name, slot] as const))('%s', (_name, slot) => {
    const { opening, before, behind, range, step, size } = slot;
    const line = (image: string): string => `hoof 1\n${opening}${before}${image}${behind}\n`;
    const without = recordOf(`hoof 1\n${opening}`);
    const little = step || (range.high - range.low) / 1e4;
    // A number of the file itself, which has no block of its own to be left out of.
    const version = before.startsWith('hoof');
    for (const value of [range.low, range.low + little, range.high - little, range.high]) {
      const text = version ? `hoof ${written(value)}\n` : line(written(value));
      const { findings } = inspect(text);
      expect(
        findings
          .map(({ code, message }) => `${code} ${message}`)
          .filter((told) => told.startsWith('notation/number-range')),
        text,
      ).toEqual([]);
      const record = recordOf(text);
      if (!version) expect(record, text).not.toEqual(without);
      // The scale of a marker is in the record as its length; a ground line and a marker as their points.
      const base = value * size;
      expect(
        numbersIn(record).some((one) => Math.abs(one - base) <= 1e-9 * Math.max(1, Math.abs(base))),
        text,
      ).toBe(true);
    }
    for (const value of [range.low - little, range.high + little]) {
      const text = version ? `hoof ${written(value)}\n` : line(written(value));
      const told = inspect(text).findings.filter(({ code }) => code === 'notation/number-range');
      expect(
        told.map(({ at }) => text.slice(at.start, at.end)),
        text,
      ).toEqual([written(value)]);
      expect(told[0]?.severity).toBe('error');
      expect(told[0]?.message, text).not.toMatch(/NaN|Infinity|undefined/);
      if (version) expect(inspect(text).study.record.version).toBeNull();
      // A grade of lameness that the scale does not have counts as none, and is kept: it may still call the vet.
      else if (/\b(?:obel|meier|lameness) /.test(before))
        expect(
          JSON.parse(JSON.stringify(recordOf(text)).replace(/"gradesUnread":\[\{[^}]*\}\]/, '"gradesUnread":[]')),
        ).toEqual(without);
      else if (!/^(?:read)/.test(before)) expect(recordOf(text), text).toEqual(without);
      else expect(numbersIn(recordOf(text)), text).not.toContain(value);
    }
  });
});

const codesOf = (text: string): string[] => inspect(text).findings.map(({ code }) => code);

describe('a range', () => {
  it('is said in the unit that was written, rounded inwards', () => {
    const said = (line: string): string | undefined =>
      inspect(`hoof 1\ncase "X"\n  ${line}\n`).findings.find(({ code }) => code === 'notation/number-range')?.message;
    expect(said('height 14.8 cm')).toBe('«height» goes from 50 to 220 cm; 14.8 cm is less. Did you mean 148 cm?');
    expect(said('height 4 mm')).toBe('«height» goes from 500 to 2200 mm; 4 mm is less.');
    expect(said('height 4 hh')).toContain('goes from 5 to 21.2 hh; 4 hh is less');
    expect(said('height 90 in')).toContain('goes from 19.7 to 86.6 in; 90 in is more');
  });

  it('of tape and stated values covers what can be', () => {
    expect(sayRange(measuredValue.length)).toBe('-500 to 500 mm');
    expect(tapedValue.length.low).toBeLessThan(0);
  });
});

/** Real ones that are just out of the ordinary. Known facts of the trade, from memory. */
describe('nothing that is real is refused', () => {
  it.each([
    ['case', 'height 56 cm'],
    ['case', 'height 219 cm'],
    ['case', 'height 7.2 hh'],
    ['case', 'foaled 1961-06'],
    ['visit', 'weight 25 kg'],
    ['visit', 'weight 1450 kg'],
    ['visit', 'weight 3200 lb'],
    ['visit', 'girth 45 cm'],
    ['visit', 'girth 270 cm'],
    ['visit', 'insulin 1450 uIU/mL'],
    ['visit', 'insulin 9000 pmol/L'],
    ['visit', 'insulin 0 uIU/mL'],
    ['visit', 'acth 1850 pg/mL'],
    ['visit', 'acth 400 pmol/L'],
    ['visit', 'glucose 0.4 mmol/L'],
    ['visit', 'glucose 900 mg/dL'],
    ['visit', 'next 1 day'],
    ['visit', 'next 12 months'],
    ['visit', 'next 24 months'],
    ['film', 'scale 0.0212 mm/px'],
    ['film', 'scale 5 mm = 100, 100 .. 150, 100'],
    ['film', 'scale 1 in = 100, 100 .. 350, 100'],
    ['film', 'magnify 1.3'],
    ['film', 'p3.tip @ -12.5, 30000'],
    ['plan', 'heel down 0 mm'],
    ['plan', 'heel down 1.5 in'],
    ['tape', 'heel-surplus -4 mm'],
    ['limits', 'founder-distance <= -15 mm'],
  ] as const)('in %s: %s', (place, line) => {
    const text = `hoof 1\n${openings[place]}${line}\n`;
    expect(codesOf(text).filter((code) => /^(?:notation|record)\//.test(code))).toEqual([]);
  });
});
