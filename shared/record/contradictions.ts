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
  const first = new Map<string, { readonly value: string; readonly statement: Statement }>();
  return entries.filter(isStatement).flatMap((statement) => {
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
}
