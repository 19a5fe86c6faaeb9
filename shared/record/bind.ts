import { t } from '../language/words.ts';
import { once } from '../notation/once.ts';
import type { NotationCode, Problem } from '../notation/problems.ts';
import {
  isGroup,
  isStatement,
  type Block,
  type BlockContents,
  type Entry,
  type Span,
  type Statement,
} from '../notation/tree.ts';
import type { BlockWord } from '../notation/vocabulary.ts';
import * as read from './arguments.ts';
import { bindAccepts } from './bind-accepts.ts';
import { proseIn } from './bind-picture.ts';
import { bindVisit, emptyVisit } from './bind-visit.ts';
import { guestsAtHome } from './guests.ts';
import { saidOnce } from './once.ts';
import type { RecordCode, RecordProblem } from './problems.ts';
import type { Animal, Limit, Visit } from './schema.ts';
import { unreadIn } from './unread-in.ts';

export interface BlockRecord {
  /** What kind of block it is, and where its header stands. */
  readonly word: BlockWord | null;
  readonly header: Span | null;
  /** Whether nothing is written in it but remarks. */
  readonly empty: boolean;
  readonly version: number | null;
  readonly animal: Animal | null;
  readonly limits: readonly Limit[];
  readonly visit: Visit | null;
  /** Of any other block, what is said in it of the animal’s state; null where nothing is. */
  readonly outside: Visit | null;
  /** The first of its lines that is not understood, where it is no visit; null where all are. */
  readonly unread: Span | null;
  /** Of the notation, then of the record. */
  readonly problems: readonly Problem<NotationCode | RecordCode>[];
}

/**
 * What one level-0 block means. The first of three caches: block to record. A block is a pure function of its text and never
 * changes, so that its record can never be stale.
 */
export const bindBlock = once(bind);

function bind(block: Block): BlockRecord {
  const problems: RecordProblem[] = [];
  const { row, header, lines } = block;
  const unrepeated: BlockContents = {
    row,
    header,
    lines,
    entries: saidOnce(guestsAtHome(block.entries), problems),
    problems: block.problems,
  };
  const word = row?.word ?? null;
  return {
    word,
    header: header && read.spanOf(header),
    empty: !header && block.entries.length === 0,
    version: word === 'hoof' && header ? (read.numberOf(header, 'version')?.value ?? null) : null,
    animal: word === 'case' ? bindAnimal(unrepeated, problems) : null,
    limits: bindLimits(word === 'limits' ? unrepeated.entries : limitsWithin(unrepeated.entries)),
    visit: word === 'visit' ? bindVisit(unrepeated, problems) : null,
    outside: word === 'visit' ? null : bindOutside(unrepeated),
    unread: word === 'visit' ? null : unreadOf(unrepeated),
    problems: block.problems.length > 0 ? [...block.problems, ...problems] : problems,
  };
}

/** Lines that belong in a visit, in a part of the file that is none: nobody knows of which day, and what is grave in them calls all the same. */
function bindOutside(block: BlockContents): Visit | null {
  const visit = emptyVisit(noPlace, noPlace);
  unreadIn(block, visit);
  const all = [...visit.gradesUnread, ...visit.signs, ...visit.pulses, ...visit.temperatures];
  const [first] = all.map(({ at }) => at).toSorted((a, b) => a.start - b.start);
  return first ? { ...visit, dateAt: first, head: first, at: first, unreadAt: first } : null;
}

/** A header of the version counts for nothing that is planned. */
function unreadOf({ row, header, entries }: BlockContents): Span | null {
  if (row?.word === 'hoof') return null;
  if (header && !header.whole) return read.spanOf(header);
  return brokenIn(entries);
}

function brokenIn(entries: readonly Entry[]): Span | null {
  for (const entry of entries) {
    const statement = isGroup(entry) ? entry.header : isStatement(entry) ? entry : null;
    if (statement && !statement.whole) return read.spanOf(statement);
    const within = isGroup(entry) ? brokenIn(entry.entries) : null;
    if (within) return within;
  }
  return null;
}

const noPlace: Span = { start: 0, end: 0 };

function bindAnimal(block: BlockContents, problems: RecordProblem[]): Animal {
  const header = block.header as Statement;
  const animal: Animal = {
    name: read.textOf(header, 'name')?.text ?? null,
    kind: null,
    sex: null,
    breed: null,
    foaled: null,
    height: null,
    microchip: null,
    ueln: null,
    code: null,
    sharing: 'private',
    sharingAt: null,
    onset: null,
    key: null,
    consent: null,
    diagnoses: [],
    vet: [],
    farrier: null,
    prose: proseIn(block.entries),
    accepts: bindAccepts(block),
    head: read.spanOf(header.head),
    at: { start: header.start, end: block.entries.at(-1)?.end ?? header.end },
  };
  for (const statement of block.entries.filter(isStatement)) {
    if (!statement.whole) continue;
    switch (statement.word) {
      case 'animal':
        animal.kind = read.wordOf(statement, 'kind') as Animal['kind'];
        animal.sex = read.wordOf(statement, 'sex');
        break;
      case 'breed':
        animal.breed = read.textOf(statement, 'breed')?.text ?? null;
        break;
      case 'foaled':
        animal.foaled = read.dateOf(statement, 'date')?.date ?? null;
        break;
      case 'height':
        animal.height = read.quantityOf(statement, 'height', 'stature');
        break;
      case 'microchip':
        animal.microchip = read.codeOf(statement, 'number');
        checkMicrochip(statement, animal.microchip ?? '', problems);
        break;
      case 'ueln':
        animal.ueln = read.codeOf(statement, 'number');
        break;
      case 'code':
        animal.code = read.codeOf(statement, 'code');
        break;
      case 'sharing':
        animal.sharing = read.wordOf(statement, 'sharing') as Animal['sharing'];
        animal.sharingAt = read.spanOf(statement);
        break;
      case 'key':
        animal.key = {
          file: read.textOf(statement, 'file'),
          by: read.textOf(statement, 'by'),
          at: read.spanOf(statement),
        };
        break;
      case 'farrier':
        animal.farrier = read.textOf(statement, 'who');
        break;
      case 'diagnosis':
      case 'vet': {
        const text = read.textOf(statement, 'text');
        if (text) animal[statement.word === 'vet' ? 'vet' : 'diagnoses'].push(text);
        break;
      }
      case 'onset': {
        const date = read.dateOf(statement, 'date');
        const text = read.textOf(statement, 'text');
        if (date && text) animal.onset = { date: date.date, text: text.text };
        break;
      }
      case 'consent': {
        const date = read.dateOf(statement, 'date');
        if (date) animal.consent = { date: date.date, text: read.textOf(statement, 'text')?.text ?? null };
        break;
      }
    }
  }
  return animal;
}

/** ISO 11784: 3 digits of a country or maker, then a number of 38 bits. */
function checkMicrochip(statement: Statement, digits: string, problems: RecordProblem[]): void {
  if (Number(digits.slice(3)) <= 274_877_906_943) return;
  const [at] = statement.args.get('number') ?? [];
  problems.push({
    code: 'record/microchip',
    at: read.spanOf(at ?? statement),
    message: t(
      'No chip can carry this number: after the first 3 digits ISO 11784 goes up to 274877906943. Read the chip again.',
    ),
    fixes: [],
  });
}

/** Those of a `limits` that stands among the lines of a visit or a case. */
function limitsWithin(entries: readonly Entry[]): readonly Entry[] {
  return entries.flatMap((entry) => (isGroup(entry) && entry.row.word === 'limits' ? entry.entries : []));
}

function bindLimits(entries: readonly Entry[]): Limit[] {
  return entries.filter(isStatement).flatMap((statement) => {
    const quantity = read.quantityOf(statement, 'value');
    const [relation] = statement.args.get('relation') ?? [];
    if (statement.kind !== 'limit' || !statement.whole || !quantity || relation?.kind !== 'sign') return [];
    return [
      {
        measure: statement.word,
        measureAt: read.spanOf(statement.head),
        quantity,
        relation: relation.image === '≥' ? '>=' : relation.image === '≤' ? '<=' : (relation.image as Limit['relation']),
        because: statement.args.get('because')?.find((item) => item.kind === 'text')?.value ?? null,
        at: read.spanOf(statement),
      },
    ];
  });
}
