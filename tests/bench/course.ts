// How long the course of a case with 40 visits takes to stand on the built page after its data have arrived. Printed, never failed on.
import { inspect } from '../../shared/findings/inspect.ts';
import { dateOfDay, dayNumber } from '../../shared/notation/dates.ts';
import { courseSheet } from '../../shared/views/course-sheet.ts';
import type { PageState } from '../../src/messages/messages.ts';
import { courseText, turn, wing } from '../unit/course-text.ts';
import { sheetsMessage } from '../told-page.ts';
import { mockedPage } from './mocked-page.ts';

const VISITS = 40;
const RUNS = 41;
const uri = 'file:///case.hoof';

function caseOf(shift: number): string {
  const start = dayNumber('2022-01-05') ?? 0;
  return courseText(
    Array.from({ length: VISITS }, (_, index) => ({
      date: dateOfDay(start + 30 * index),
      places: { ...wing(20 - index / 4 + shift + (index % 3) / 2), ...turn(3 + index / 2) },
      more: ['  obel 1', '  weight 480 kg', '  trim LF\n    heel down 2 mm'],
    })),
  );
}

/** Two states of the case by turns, so that each time there is something new to draw. */
const inspections = [0, 0.3].map((shift) => inspect(caseOf(shift)));
const [first] = inspections;
if (!first) throw new Error('there is no case');
const courses = inspections.map((inspection) => ({ type: 'course', uri, ...courseSheet(inspection) }));
const sheets = sheetsMessage(first, { uri, caseName: 'Test', cursor: 0 });
const kept: PageState = {
  uri,
  film: null,
  cut: null,
  over: null,
  hidden: [],
  shows: { picture: true, drawing: true, lettering: true },
  scroll: 0,
  view: 'course',
};

const { page, close } = await mockedPage('.', kept);
await page.evaluate((message) => dispatchEvent(new MessageEvent('message', { data: message })), sheets);
const times = await page.evaluate(
  async ({ messages, runs }) => {
    const told: { drawn: number; painted: number }[] = [];
    const stroke = (): string => document.querySelector('.stave-ink svg .film-stroke')?.outerHTML ?? '';
    for (let run = 0; run < runs; run++) {
      const before = stroke();
      const start = performance.now();
      dispatchEvent(new MessageEvent('message', { data: messages[run % messages.length] }));
      while (stroke() === before) await Promise.resolve();
      document.body.getBoundingClientRect();
      const drawn = performance.now() - start;
      await new Promise((frame) => requestAnimationFrame(() => setTimeout(frame)));
      told.push({ drawn, painted: performance.now() - start });
    }
    return told;
  },
  { messages: courses, runs: RUNS },
);
await close();

const middle = (of: readonly number[]): number => of.toSorted((a, b) => a - b)[of.length >> 1] ?? Number.NaN;
const ms = (value: number | undefined): string => `${(value ?? Number.NaN).toFixed(1)} ms`;
console.log(`The course of ${VISITS} visits on the built page, after its data have arrived:`);
console.log(`  first time: drawn and laid out ${ms(times[0]?.drawn)}, painted ${ms(times[0]?.painted)}`);
console.log(
  `  then, median of ${RUNS - 1}: drawn and laid out ${ms(middle(times.slice(1).map(({ drawn }) => drawn)))}, painted ${ms(middle(times.slice(1).map(({ painted }) => painted)))}`,
);
