import { dayNumber } from '../notation/dates.ts';
import { outside, sayRange } from '../notation/in-range.ts';
import { interval } from '../notation/ranges.ts';
import { isGroup, isStatement, type BlockContents, type Group, type Span, type Statement } from '../notation/tree.ts';
import type { FootName } from '../notation/choices.ts';
import * as read from './arguments.ts';
import { bindAccepts } from './bind-accepts.ts';
import { bindPicture, proseIn } from './bind-picture.ts';
import { cutToSize } from './cut-to-size.ts';
import type { RecordProblem } from './problems.ts';
import type { Cut, Tape, Visit } from './schema.ts';
import { unreadGrade } from './unread-grade.ts';

/** A `visit` block as a record. Never null: a visit whose date is broken still keeps what was written in it. */
export function bindVisit(block: BlockContents, problems: RecordProblem[]): Visit {
  const header = block.header as Statement;
  const date = read.dateOf(header, 'date');
  const visit: Visit = {
    date: header.whole || date ? (date?.date ?? null) : null,
    dateAt: date?.at ?? read.spanOf(header),
    title: read.textOf(header, 'title')?.text ?? null,
    by: null,
    weight: null,
    girth: null,
    length: null,
    condition: null,
    crest: null,
    obel: null,
    obelUnread: null,
    pulses: [],
    insulin: null,
    acth: null,
    glucose: null,
    feed: [],
    turnout: [],
    vet: [],
    seen: [],
    signs: [],
    next: null,
    prose: proseIn(block.entries),
    films: [],
    tapes: [],
    cuts: [],
    accepts: bindAccepts(block),
    head: read.spanOf(header.head),
    at: { start: header.start, end: block.entries.at(-1)?.end ?? header.end },
  };
  for (const entry of block.entries) {
    if (isGroup(entry)) bindGroup(visit, entry, problems);
    else if (isStatement(entry)) {
      if (entry.whole) bindWord(visit, entry, problems);
      if (!(entry.whole && entry.word === 'obel')) visit.obelUnread ??= unreadGrade(entry, block.lines[entry.line]);
    }
  }
  visit.pulses = cutToSize(visit.pulses);
  visit.films = cutToSize(visit.films);
  visit.tapes = cutToSize(visit.tapes);
  visit.cuts = cutToSize(visit.cuts);
  return visit;
}

function bindGroup(visit: Visit, group: Group, problems: RecordProblem[]): void {
  switch (group.row.word) {
    case 'film':
    case 'photo': {
      const film = bindPicture(group, problems);
      if (film) visit.films.push(film);
      break;
    }
    case 'tape': {
      const tape = bindTape(group);
      if (tape) visit.tapes.push(tape);
      break;
    }
    case 'plan':
    case 'trim': {
      const cut = bindCut(group);
      if (cut) visit.cuts.push(cut);
      break;
    }
  }
}

function bindWord(visit: Visit, statement: Statement, problems: RecordProblem[]): void {
  switch (statement.word) {
    case 'by':
      visit.by = read.textOf(statement, 'who');
      break;
    case 'weight':
      visit.weight = read.quantityOf(statement, 'weight', 'mass');
      break;
    case 'girth':
      visit.girth = read.quantityOf(statement, 'girth', 'length');
      break;
    case 'length':
      visit.length = read.quantityOf(statement, 'length', 'length');
      break;
    case 'condition':
      visit.condition = read.numberOf(statement, 'score');
      break;
    case 'crest':
      visit.crest = read.numberOf(statement, 'score');
      break;
    case 'obel':
      visit.obel = read.numberOf(statement, 'grade');
      break;
    case 'pulse':
      visit.pulses.push({
        feet: read.wordsOf(statement, 'feet').map(({ word }) => word as FootName),
        pulse: read.wordOf(statement, 'pulse') as Visit['pulses'][number]['pulse'],
        at: read.spanOf(statement),
      });
      break;
    case 'insulin':
      visit.insulin = read.quantityOf(statement, 'value', 'insulin');
      break;
    case 'acth':
      visit.acth = read.quantityOf(statement, 'value', 'acth');
      break;
    case 'glucose':
      visit.glucose = read.quantityOf(statement, 'value', 'glucose');
      break;
    case 'vet': {
      const seen = read.dateOf(statement, 'date');
      const text = read.textOf(statement, 'text');
      if (seen) visit.seen.push({ date: seen.date, text: text?.text ?? null, at: read.spanOf(statement) });
      else if (text) visit.vet.push(text);
      break;
    }
    case 'feed':
    case 'turnout': {
      const text = read.textOf(statement, 'text');
      if (text) visit[statement.word].push(text);
      break;
    }
    case 'sign':
      for (const sign of read.wordsOf(statement, 'signs')) visit.signs.push(sign);
      break;
    case 'next': {
      const at = read.spanOf(statement);
      const after = read.quantityOf(statement, 'after', 'time');
      const on = read.dateOf(statement, 'date');
      const problem = on && misplaced(on, visit.date);
      if (problem) problems.push(problem);
      else visit.next = after ? { after, at } : on ? { date: on.date, at } : null;
      break;
    }
  }
}

/** What is wrong with the day of the next visit, told at it; null where it is as near as a time until then may be. */
function misplaced({ date, at }: { date: string; at: Span }, of: string | null): RecordProblem | null {
  const [then, today] = [dayNumber(date), of === null ? null : dayNumber(of)];
  const side = then === null || today === null ? null : outside(then - today, interval);
  if (side === null) return null;
  const how = side === 'below' ? `not after this visit of ${of}` : `later than that after this visit of ${of}`;
  return {
    code: 'record/next-date',
    at,
    message: `The next visit is ${sayRange(interval)} after the one that it stands in; ${date} is ${how}. Check the year and the month.`,
    fixes: [],
  };
}

function bindTape(group: Group): Tape | null {
  const foot = read.wordOf(group.header, 'foot');
  if (!group.header.whole || !foot) return null;
  const values = group.entries.filter(isStatement).flatMap((statement) => {
    const quantity = read.quantityOf(statement, 'value');
    return statement.kind === 'taped' && statement.whole && quantity
      ? [{ measure: statement.word, measureAt: read.spanOf(statement.head), quantity, at: read.spanOf(statement) }]
      : [];
  });
  return {
    foot: foot as FootName,
    values,
    head: read.spanOf(group.header.head),
    at: read.spanOf(group),
    line: group.header.line,
  };
}

function bindCut(group: Group): Cut | null {
  const foot = read.wordOf(group.header, 'foot');
  if (!group.header.whole || !foot) return null;
  const cut: Cut = {
    kind: group.row.word === 'trim' ? 'trim' : 'plan',
    foot: foot as FootName,
    heelDown: null,
    toeDown: null,
    toeBack: null,
    leave: [],
    boots: null,
    why: [],
    work: [],
    prose: proseIn(group.entries),
    head: read.spanOf(group.header.head),
    at: read.spanOf(group),
    line: group.header.line,
  };
  for (const statement of group.entries.filter(isStatement)) {
    if (!statement.whole) continue;
    switch (statement.word) {
      case 'heel':
        cut.heelDown = read.quantityOf(statement, 'amount', 'length');
        break;
      case 'toe':
        cut[statement.args.has('back') ? 'toeBack' : 'toeDown'] = read.quantityOf(statement, 'amount', 'length');
        break;
      case 'leave':
        for (const { word } of read.wordsOf(statement, 'parts')) cut.leave.push(word as Cut['leave'][number]);
        break;
      case 'boots':
        cut.boots = read.textOf(statement, 'text');
        break;
      case 'why':
      case 'work': {
        const text = read.textOf(statement, 'text');
        if (text) cut[statement.word].push(text);
        break;
      }
    }
  }
  return cut;
}
