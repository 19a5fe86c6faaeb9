import { t } from '../language/words.ts';
import { isStatement, type Entry, type Statement } from '../notation/tree.ts';
import * as read from './arguments.ts';
import type { RecordProblem } from './problems.ts';

interface SaidLine {
  /** Of what, in words of the notation: `pulse LF`, `testers LF toe`, `temperature`. */
  readonly of: string;
  readonly value: string;
}

/** What a line says of each foot, or of the animal, that can only be one thing at one visit. */
function saidBy(statement: Statement): readonly SaidLine[] {
  const value = (name: string): string => read.wordOf(statement, name) ?? '';
  const eachFoot = (said: string): SaidLine[] =>
    [...new Set(read.feetOf(statement))].map((foot) => ({ of: `${statement.word} ${foot}`, value: said }));
  switch (statement.word) {
    case 'pulse':
      return eachFoot(value('pulse'));
    case 'landing':
      return eachFoot(value('landing'));
    case 'sole':
      return eachFoot(value('firmness'));
    case 'testers':
      return eachFoot(value('answer')).flatMap(({ of, value: answer }) =>
        read.wordsOf(statement, 'places').map(({ word }) => ({ of: `${of} ${word}`, value: answer })),
      );
    case 'temperature': {
      const degrees = read.quantityOf(statement, 'temperature', 'warmth');
      if (degrees) return [{ of: 'temperature', value: `${degrees.value} ${degrees.unit}` }];
      return eachFoot(value('warmth'));
    }
    case 'lameness': {
      const grade = String(read.numberOf(statement, 'grade')?.value);
      return statement.args.has('feet') ? eachFoot(grade) : [{ of: 'lameness', value: grade }];
    }
    default:
      return [];
  }
}

/**
 * Lines of one visit that say different things of one foot: what may be said once for each foot is not said twice, as `saidOnce` has it
 * for other words. Both stay in the record, as nobody knows which is right; who asks for one takes the graver.
 */
export function contradictions(entries: readonly Entry[]): RecordProblem[] {
  const scales = acrossScales(entries);
  const first = new Map<string, { readonly value: string; readonly statement: Statement }>();
  const found = entries.filter(isStatement).flatMap((statement): RecordProblem[] => {
    if (statement.kind !== 'statement' || !statement.whole) return [];
    const said = saidBy(statement);
    const against = said.find(({ of, value }) => (first.get(of)?.value ?? value) !== value);
    for (const { of, value } of said) if (!first.has(of)) first.set(of, { value, statement });
    const earlier = against && first.get(against.of);
    if (!against || !earlier) return [];
    return [
      {
        code: 'record/contradiction',
        at: read.spanOf(statement),
        message: t(
          '«{0}» says {1} here, and {2} above. Keep the one that is right; until then both stand.',
          against.of,
          against.value,
          earlier.value,
        ),
        fixes:
          said.length === 1
            ? [{ title: t('Remove this line'), edits: [{ ...read.spanOf(statement), text: '', wholeLine: true }] }]
            : [],
        related: [{ at: read.spanOf(earlier.statement), message: t('Said here first.') }],
      },
    ];
  });
  return [...found, ...scales];
}

/** A grade that says sound beside one of another scale that says plainly lame. The modified Obel score is told by itself: `visit/score-alone`. */
function acrossScales(entries: readonly Entry[]): RecordProblem[] {
  const grades = entries.filter(isStatement).flatMap((statement) => {
    const grade = statement.whole ? read.numberOf(statement, 'grade')?.value : undefined;
    if (grade === undefined || (statement.word !== 'obel' && statement.word !== 'lameness')) return [];
    const feet = statement.word === 'lameness' ? read.feetOf(statement).map((foot) => ` ${foot}`) : [];
    // 2 of Obel is lame at the walk, and 4 over ground plain there.
    const isLame = grade >= (statement.word === 'obel' ? 2 : 4);
    return [{ statement, grade, isLame, said: `${statement.word}${feet.join('')} ${grade}` }];
  });
  const sound = grades.find(({ grade, statement }) => grade === 0 && !statement.args.has('feet'));
  const lame = grades.find(({ isLame, statement }) => isLame && statement.word !== sound?.statement.word);
  if (!sound || !lame) return [];
  const [earlier, later] = sound.statement.start < lame.statement.start ? [sound, lame] : [lame, sound];
  return [
    {
      code: 'record/contradiction',
      at: read.spanOf(later.statement),
      message: t(
        '«{0}» and «{1}» do not agree. Keep the one that is right; until then the graver counts.',
        earlier.said,
        later.said,
      ),
      fixes: [],
      related: [{ at: read.spanOf(earlier.statement), message: t('Said here first.') }],
    },
  ];
}
