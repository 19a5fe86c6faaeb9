import { isGroup, isStatement, type Block, type Statement } from '../notation/tree.ts';
import * as read from './arguments.ts';
import { bindAccepts } from './bind-accepts.ts';
import { proseIn } from './bind-picture.ts';
import { bindVisit } from './bind-visit.ts';
import { sayOnce } from './once.ts';
import type { RecordProblem } from './problems.ts';
import type { Animal, Limit, Visit } from './schema.ts';

export interface BlockRecord {
  readonly version: number | null;
  readonly animal: Animal | null;
  readonly limits: readonly Limit[];
  readonly visit: Visit | null;
  readonly problems: readonly RecordProblem[];
}

const bound = new WeakMap<Block, BlockRecord>();

/** What one level-0 block means; pure, and remembered for as long as its block is. */
export function bindBlock(block: Block): BlockRecord {
  const known = bound.get(block);
  if (known) return known;
  const problems: RecordProblem[] = [];
  const once = saidOnce(block, problems);
  const word = block.row?.word;
  const record: BlockRecord = {
    version: word === 'hoof' && block.header ? (read.numberOf(block.header, 'version')?.value ?? null) : null,
    animal: word === 'case' ? bindAnimal(once, problems) : null,
    limits: word === 'limits' ? bindLimits(once) : [],
    visit: word === 'visit' ? bindVisit(once, problems) : null,
    problems,
  };
  bound.set(block, record);
  return record;
}

function saidOnce(block: Block, problems: RecordProblem[]): Block {
  const entries = sayOnce(block.entries, problems).map((entry) =>
    isGroup(entry) ? { ...entry, entries: sayOnce(entry.entries, problems) } : entry,
  );
  return { ...block, entries };
}

function bindAnimal(block: Block, problems: RecordProblem[]): Animal {
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
    onset: null,
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
        break;
      case 'onset': {
        const date = read.dateOf(statement, 'date');
        const text = read.textOf(statement, 'text');
        if (date && text) animal.onset = { date: date.date, text: text.text };
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
    message:
      'No chip can carry this number: after the first 3 digits ISO 11784 goes up to 274877906943. Read the chip again.',
    fixes: [],
  });
}

function bindLimits(block: Block): Limit[] {
  return block.entries.filter(isStatement).flatMap((statement) => {
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
