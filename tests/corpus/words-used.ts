import { handMeasures } from '../../shared/measures/by-hand.ts';
import { measures } from '../../shared/measures/registry.ts';
import { landmarks } from '../../shared/notation/landmarks.ts';
import { parse } from '../../shared/notation/parse.ts';
import { writeForm, type Argument, type Form } from '../../shared/notation/signature.ts';
import { isGroup, isStatement, type Arguments, type Entry, type Statement } from '../../shared/notation/tree.ts';
import { findUnit, units, usualUnit } from '../../shared/notation/units.ts';
import {
  blocks,
  formsIn,
  limitForms,
  placingForm,
  statements,
  tapeForm,
  type Container,
} from '../../shared/notation/vocabulary.ts';

/*
 * What the vocabulary lets somebody write, and what of it some texts write, both as sentences such as `heel in plan`, `heel down
 * QUANTITY`, `unit mm of length`. A word that is added is wanted as soon as it has its row.
 */

/** Whether a form has the argument, and none of what it needs is missing: then it may be the one that is written. */
const fits = (form: Form, names: readonly string[]): boolean =>
  names.every((name) => form.some((one) => one.name === name)) &&
  form.every((one) => one.optional || names.includes(one.name));

const form = (word: string, one: Form): string => `the form ${word} ${writeForm(one)}`;
const argument = (word: string, one: Form, { name }: Argument): string => `${form(word, one)}: with ${name}`;

export function wordsWanted(): Set<string> {
  const wanted = new Set<string>();
  for (const row of [...blocks, ...statements])
    for (const place of row.in) {
      wanted.add(`${row.word} in ${place}`);
      for (const one of formsIn(row, place)) wantForm(wanted, row.word, one);
    }
  wantForm(wanted, 'LANDMARK', placingForm);
  wantForm(wanted, 'TAPED', tapeForm);
  for (const one of limitForms) wantForm(wanted, 'LIMITED', one);
  for (const { word, view } of landmarks) wanted.add(`${word} in a ${view} view`);
  for (const { name } of [...measures.filter(({ byHand }) => byHand), ...handMeasures]) wanted.add(`${name} by hand`);
  for (const { word, dimension } of units) wanted.add(`unit ${word} of ${dimension}`);
  for (const sign of ['>=', '<=']) wanted.add(`limit ${sign}`);
  return wanted;
}

function wantForm(wanted: Set<string>, word: string, one: Form): void {
  wanted.add(form(word, one));
  for (const part of one) {
    if (part.optional) wanted.add(argument(word, one, part));
    if (part.take === 'choice') for (const choice of part.of) wanted.add(`${word}: ${choice}`);
    if (part.take === 'word') for (const known of part.known) wanted.add(`${word}: ${known}`);
  }
}

/** Only lines that are understood count. */
export function wordsUsed(texts: readonly string[]): Set<string> {
  const used = new Set<string>();
  for (const text of texts)
    for (const { block } of parse(text).blocks) {
      const place = block.row?.word ?? 'file';
      if (block.header) useStatement(used, block.header, 'file', '');
      for (const entry of block.entries) useEntry(used, entry, place, '');
    }
  return used;
}

function useEntry(used: Set<string>, entry: Entry, place: Container, view: string): void {
  if (isGroup(entry)) {
    const header = entry.header;
    const [seen] = header.args.get('view') ?? [];
    const shows = seen?.kind === 'word' ? seen.image : view;
    useStatement(used, header, place, view);
    for (const one of entry.entries) useEntry(used, one, entry.row.word, shows);
  } else if (isStatement(entry)) useStatement(used, entry, place, view);
}

function useStatement(used: Set<string>, one: Statement, place: Container, view: string): void {
  if (!one.whole) return;
  if (one.kind === 'placing') {
    used.add(`${one.word} in a ${view} view`);
    useForms(used, 'LANDMARK', [placingForm], one.args);
  } else if (one.kind === 'taped') {
    used.add(`${one.word} by hand`);
    useForms(used, 'TAPED', [tapeForm], one.args);
  } else if (one.kind === 'limit') {
    const [relation] = one.args.get('relation') ?? [];
    if (relation?.kind === 'sign') used.add(`limit ${relation.image}`);
    useForms(used, 'LIMITED', limitForms, one.args);
  } else if (one.row) {
    used.add(`${one.word} in ${place}`);
    useForms(used, one.word, formsIn(one.row, place), one.args);
  }
}

function useForms(used: Set<string>, word: string, forms: readonly Form[], args: Arguments): void {
  const names = [...args].map(([name]) => name);
  for (const one of forms.filter((each) => fits(each, names))) {
    used.add(form(word, one));
    for (const part of one) {
      const items = args.get(part.name) ?? [];
      if (items.length === 0) continue;
      if (part.optional) used.add(argument(word, one, part));
      for (const item of items) {
        if (item.kind === 'word') used.add(`${word}: ${item.image}`);
        if (item.kind === 'number' && item.unit) useUnit(used, part, item.unit.image, item.number.image);
      }
    }
  }
}

function useUnit(used: Set<string>, part: Argument, written: string, number: string): void {
  const dimensions = part.take === 'quantity' ? [part.dimension] : (['length', 'angle', 'share'] as const);
  for (const dimension of dimensions) {
    const unit = findUnit(written, dimension);
    if (unit) used.add(`unit ${usualUnit(unit.word, number)} of ${dimension}`);
  }
}
