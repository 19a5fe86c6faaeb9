import { t } from '../../shared/language/words.ts';
import type { ParameterInformation, SignatureHelp, SignatureInformation } from 'vscode-languageserver';
import type { Inspection } from '../../shared/findings/inspect.ts';
import { findHandMeasure } from '../../shared/measures/by-hand.ts';
import { findMeasure } from '../../shared/measures/registry.ts';
import { findLandmark } from '../../shared/notation/landmarks.ts';
import { rangeWords } from '../../shared/notation/range-words.ts';
import { writeArgument, type Form } from '../../shared/notation/signature.ts';
import type { Item, Statement } from '../../shared/notation/tree.ts';
import type { ClientAbilities } from '../serving/client-abilities.ts';
import { takes, wantsUnit } from './completion/expected.ts';
import { plainText } from './describe/plain-text.ts';
import { formsOf, statementOn } from '../text/spot.ts';

export const signatureTriggers = [' '];

/** The forms of the word that the line begins with, and the argument that is being written. Null behind the last one. */
export function signatureHelp(
  { tree }: Inspection,
  offset: number,
  client: Pick<ClientAbilities, 'labelOffsets'>,
): SignatureHelp | null {
  const placed = tree.blocks.findLast(({ start }) => start <= offset);
  if (!placed) return null;
  const local = offset - placed.start;
  const number = placed.block.lines.findLastIndex(({ start }) => start <= local);
  const line = placed.block.lines[number];
  const [head, ...rest] = line?.items ?? [];
  const statement = statementOn(placed.block, number)?.statement;
  const forms = statement ? formsOf(statement).filter((form) => form.length > 0) : [];
  if (!line || !statement || !head || local <= head.end || (line.comment && local > line.comment.start)) return null;
  // The piece that the cursor is in or touches is still being written.
  const written = rest.filter(({ end }) => end < local);
  const reached = forms.map((form) => activeIn(form, written));
  const open = reached.findIndex(({ active, fits }, index) => fits && active < (forms[index]?.length ?? 0));
  const ended = reached.some(({ fits }) => fits);
  if (forms.length === 0 || (open < 0 && ended)) return null;
  const furthest = Math.max(...reached.map(({ active }) => active));
  const activeSignature = open >= 0 ? open : reached.findIndex(({ active }) => active === furthest);
  return {
    signatures: forms.map((form, index) => signature(statement, form, reached[index]?.active ?? 0, client)),
    activeSignature,
    activeParameter: reached[activeSignature]?.active ?? 0,
  };
}

/** The argument that comes next after what is written, or the one that what is written does not fit. */
function activeIn(form: Form, items: readonly Item[]): { active: number; fits: boolean } {
  let index = 0;
  for (const [active, argument] of form.entries()) {
    let taken = 0;
    while (index < items.length) {
      const found = takes(argument, items, index);
      if (found === 0) break;
      index += found;
      taken += 1;
      if (!argument.many) break;
    }
    const last = items.at(-1);
    const unfinished = wantsUnit(argument, last) || (argument.take === 'spread' && last?.kind === 'sign');
    if (index >= items.length && (taken === 0 || argument.many || unfinished)) return { active, fits: true };
    if (taken === 0 && !argument.optional) return { active, fits: false };
  }
  return { active: form.length, fits: index >= items.length };
}

function signature(
  statement: Statement,
  form: Form,
  active: number,
  { labelOffsets }: Pick<ClientAbilities, 'labelOffsets'>,
): SignatureInformation {
  let label = statement.word;
  const parameters = form.map((argument): ParameterInformation => {
    const written = writeArgument(argument);
    const start = label.length + 1;
    label += ` ${written}`;
    const range = rangeWords(argument);
    return {
      label: labelOffsets ? [start, label.length] : written,
      ...(range !== null && { documentation: t('From {0}.', range) }),
    };
  });
  const { word, row } = statement;
  const documentation = row?.doc ?? findLandmark(word)?.doc ?? findMeasure(word)?.doc ?? findHandMeasure(word)?.doc;
  return {
    label,
    parameters,
    activeParameter: active,
    ...(documentation !== undefined && { documentation: plainText(documentation) }),
  };
}
