import { t } from '../language/words.ts';
import { dayNumber } from '../notation/dates.ts';
import { outside, sayRange } from '../notation/in-range.ts';
import { isPlainView } from '../notation/landmarks.ts';
import { interval } from '../notation/ranges.ts';
import { isGroup, isStatement, type BlockContents, type Group, type Span, type Statement } from '../notation/tree.ts';
import type { FootName } from '../notation/choices.ts';
import * as read from './arguments.ts';
import { bindAccepts } from './bind-accepts.ts';
import { bindPicture, bindPlainPicture, proseIn } from './bind-picture.ts';
import { contradictions } from './contradictions.ts';
import { cutToSize } from './cut-to-size.ts';
import type { RecordProblem } from './problems.ts';
import type { Cut, Tape, Visit } from './schema.ts';
import { firstUnread } from './first-unread.ts';
import { unreadIn } from './unread-in.ts';

/** A `visit` block as a record. Never null: a visit whose date is broken still keeps what was written in it. */
export function bindVisit(block: BlockContents, problems: RecordProblem[]): Visit {
  const header = block.header as Statement;
  const date = read.dateOf(header, 'date');
  const visit: Visit = {
    ...emptyVisit(read.spanOf(header.head), { start: header.start, end: block.entries.at(-1)?.end ?? header.end }),
    date: header.whole || date ? (date?.date ?? null) : null,
    dateAt: date?.at ?? read.spanOf(header),
    title: read.textOf(header, 'title')?.text ?? null,
    prose: proseIn(block.entries),
    accepts: bindAccepts(block),
  };
  for (const entry of block.entries) {
    if (isGroup(entry)) bindGroup(visit, entry, problems);
    else if (isStatement(entry) && entry.whole) bindWord(visit, entry, problems);
  }
  unreadIn(block, visit);
  visit.unreadAt = header.whole && !header.misspelt ? firstUnread(block.entries) : read.spanOf(header);
  problems.push(...contradictions(block.entries));
  visit.lameness = cutToSize(visit.lameness);
  visit.landings = cutToSize(visit.landings);
  visit.testers = cutToSize(visit.testers);
  visit.soles = cutToSize(visit.soles);
  visit.temperatures = cutToSize(visit.temperatures);
  visit.warmths = cutToSize(visit.warmths);
  visit.found = cutToSize(visit.found);
  visit.laboratory = cutToSize(visit.laboratory);
  visit.pulses = cutToSize(visit.pulses);
  visit.worn = cutToSize(visit.worn);
  visit.films = cutToSize(visit.films);
  visit.tapes = cutToSize(visit.tapes);
  visit.cuts = cutToSize(visit.cuts);
  return visit;
}

/** A visit of which nothing is written. */
export function emptyVisit(head: Span, at: Span): Visit {
  return {
    date: null,
    dateAt: head,
    title: null,
    by: null,
    weight: null,
    girth: null,
    length: null,
    condition: null,
    crest: null,
    obel: null,
    gradesUnread: [],
    meier: null,
    lameness: [],
    landings: [],
    testers: [],
    soles: [],
    temperatures: [],
    warmths: [],
    found: [],
    pulses: [],
    insulin: null,
    acth: null,
    glucose: null,
    laboratory: [],
    medicines: [],
    diagnoses: [],
    farrier: null,
    owner: [],
    adverse: [],
    feed: [],
    turnout: [],
    vet: [],
    seen: [],
    signs: [],
    unreadAt: null,
    worn: [],
    next: null,
    prose: [],
    films: [],
    pictures: [],
    tapes: [],
    cuts: [],
    accepts: [],
    head,
    at,
  };
}

function bindGroup(visit: Visit, group: Group, problems: RecordProblem[]): void {
  switch (group.row.word) {
    case 'film':
    case 'photo': {
      const view = read.wordOf(group.header, 'view');
      if (isPlainView(view)) {
        const picture = bindPlainPicture(group, view, problems);
        if (picture) visit.pictures.push(picture);
        break;
      }
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
      for (const cut of bindCuts(group)) visit.cuts.push(cut);
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
    case 'meier':
      visit.meier = read.numberOf(statement, 'score');
      break;
    case 'lameness': {
      const grade = read.numberOf(statement, 'grade');
      if (grade) visit.lameness.push({ feet: read.feetOf(statement), grade: grade.value, at: read.spanOf(statement) });
      break;
    }
    case 'landing':
      visit.landings.push({
        feet: read.feetOf(statement),
        landing: read.wordOf(statement, 'landing') as Visit['landings'][number]['landing'],
        at: read.spanOf(statement),
      });
      break;
    case 'testers':
      visit.testers.push({
        feet: read.feetOf(statement),
        places: read.wordsOf(statement, 'places').map(({ word }) => word) as Visit['testers'][number]['places'],
        answer: read.wordOf(statement, 'answer') as Visit['testers'][number]['answer'],
        at: read.spanOf(statement),
      });
      break;
    case 'sole':
      visit.soles.push({
        feet: read.feetOf(statement),
        firmness: read.wordOf(statement, 'firmness') as Visit['soles'][number]['firmness'],
        at: read.spanOf(statement),
      });
      break;
    case 'temperature': {
      const temperature = read.quantityOf(statement, 'temperature', 'warmth');
      if (temperature) visit.temperatures.push(temperature);
      else
        visit.warmths.push({
          feet: read.feetOf(statement),
          warmth: read.wordOf(statement, 'warmth') as Visit['warmths'][number]['warmth'],
          at: read.spanOf(statement),
        });
      break;
    }
    case 'seen':
      visit.found.push({
        feet: read.feetOf(statement),
        place: read.wordOf(statement, 'place') as Visit['found'][number]['place'],
        text: read.textOf(statement, 'text')?.text ?? '',
        at: read.spanOf(statement),
      });
      break;
    case 'pulse':
      visit.pulses.push({
        feet: read.feetOf(statement),
        pulse: read.wordOf(statement, 'pulse') as Visit['pulses'][number]['pulse'],
        at: read.spanOf(statement),
      });
      break;
    case 'insulin':
    case 'acth':
    case 'glucose':
    case 'triglycerides':
    case 'hormone': {
      const value = read.quantityOf(statement, 'value', statement.word);
      if (!value) break;
      if (statement.word !== 'triglycerides' && statement.word !== 'hormone') visit[statement.word] ??= value;
      visit.laboratory.push({
        of: read.textOf(statement, 'name')?.text ?? statement.word,
        value,
        above: statement.args.has('above'),
        fasting: statement.args.has('fasting'),
        after: read.quantityOf(statement, 'delay', 'delay')?.base ?? null,
        at: read.spanOf(statement),
      });
      break;
    }
    case 'medicine': {
      const [from, until] = [read.dateOf(statement, 'from'), read.dateOf(statement, 'until')];
      visit.medicines.push({
        name: read.textOf(statement, 'name')?.text ?? '',
        dose: read.textOf(statement, 'dose')?.text ?? null,
        from: from?.date ?? null,
        until: until?.date ?? null,
        at: read.spanOf(statement),
      });
      if (from && until && until.date < from.date)
        problems.push({
          code: 'record/dates-backwards',
          at: until.at,
          message: t('This medicine ends on {0}, before it begins on {1}. Check both dates.', until.date, from.date),
          fixes: [
            {
              title: t('Change the two dates about'),
              edits: [
                { ...from.at, text: until.date },
                { ...until.at, text: from.date },
              ],
            },
          ],
        });
      break;
    }
    case 'diagnosis': {
      const text = read.textOf(statement, 'text');
      if (text) visit.diagnoses.push(text);
      break;
    }
    case 'farrier':
      visit.farrier = read.textOf(statement, 'who');
      break;
    case 'vet': {
      const seen = read.dateOf(statement, 'date');
      const text = read.textOf(statement, 'text');
      if (seen) visit.seen.push({ date: seen.date, text: text?.text ?? null, at: read.spanOf(statement) });
      else if (text) visit.vet.push(text);
      break;
    }
    case 'owner':
    case 'adverse':
    case 'feed':
    case 'turnout': {
      const text = read.textOf(statement, 'text');
      if (text) visit[statement.word].push(text);
      break;
    }
    case 'sign':
      for (const sign of read.wordsOf(statement, 'signs')) visit.signs.push(sign);
      break;
    case 'shoe':
    case 'pad':
    case 'cast':
    case 'boots':
      visit.worn.push({
        kind: statement.word,
        feet: read.feetOf(statement),
        off: statement.args.has('off'),
        thickness: read.quantityOf(statement, 'thickness', 'length'),
        wedge: read.quantityOf(statement, 'wedge', 'angle'),
        text: read.textOf(statement, 'text'),
        at: read.spanOf(statement),
      });
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
  const how =
    side === 'below' ? t('not after this visit of {0}', of) : t('later than that after this visit of {0}', of);
  return {
    code: 'record/next-date',
    at,
    message: t(
      'The next visit is {0} after the one that it stands in; {1} is {2}. Check the year and the month.',
      sayRange(interval),
      date,
      how,
    ),
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

/** One for each foot that is named, each once. */
function bindCuts(group: Group): Cut[] {
  const feet = [...new Set(read.wordsOf(group.header, 'foot').map(({ word }) => word as FootName))];
  const [first] = feet;
  if (!group.header.whole || first === undefined) return [];
  const cut = bindCut(group, first, feet);
  return feet.map((foot) => (foot === first ? cut : { ...cut, foot }));
}

function bindCut(group: Group, foot: FootName, feet: FootName[]): Cut {
  const cut: Cut = {
    kind: group.row.word === 'trim' ? 'trim' : 'plan',
    foot,
    feet,
    heelDown: null,
    heelFrom: null,
    toeDown: null,
    toeBack: null,
    heelUp: null,
    insideDown: null,
    outsideDown: null,
    dressed: [],
    leave: [],
    boots: null,
    why: [],
    work: [],
    unreadAt: firstUnread(group.entries),
    prose: proseIn(group.entries),
    head: read.spanOf(group.header.head),
    at: read.spanOf(group),
    line: group.header.line,
  };
  for (const statement of group.entries.filter(isStatement)) {
    if (!statement.whole) continue;
    switch (statement.word) {
      case 'heel':
        if (statement.args.has('up')) cut.heelUp = read.quantityOf(statement, 'wedge', 'angle');
        else {
          cut.heelDown = read.quantityOf(statement, 'amount', 'length');
          cut.heelFrom = read.quantityOf(statement, 'from', 'length');
        }
        break;
      case 'inside':
        cut.insideDown = read.quantityOf(statement, 'amount', 'length');
        break;
      case 'outside':
        cut.outsideDown = read.quantityOf(statement, 'amount', 'length');
        break;
      case 'bevel':
      case 'quarters':
      case 'bars':
        cut.dressed.push({
          what: statement.word,
          places: read.wordsOf(statement, 'places').map(({ word }) => word) as Cut['dressed'][number]['places'],
          amount: read.quantityOf(statement, 'amount', 'length'),
          text: read.textOf(statement, 'text')?.text ?? null,
          at: read.spanOf(statement),
        });
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
