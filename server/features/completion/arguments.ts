import { t } from '../../../shared/language/words.ts';
import { CompletionItemKind } from 'vscode-languageserver';
import type { Finding } from '../../../shared/findings/finding.ts';
import { findHandMeasure } from '../../../shared/measures/by-hand.ts';
import { findMeasure, measures } from '../../../shared/measures/registry.ts';
import { parseLines } from '../../../shared/notation/lines.ts';
import { findLandmark } from '../../../shared/notation/landmarks.ts';
import type { Form } from '../../../shared/notation/signature.ts';
import type { Item } from '../../../shared/notation/tree.ts';
import { findUnit, unitsOf } from '../../../shared/notation/units.ts';
import {
  findRow,
  footDoc,
  limitForms,
  placingDoc,
  placingForm,
  tapeForm,
  type Container,
} from '../../../shared/notation/vocabulary.ts';
import { feet } from '../../../shared/notation/choices.ts';
import { describeUnit } from '../describe/unit.ts';
import { acceptedMeasureOffers, findingOffers } from './finding-codes.ts';
import { expectedAfter, type Expected } from './expected.ts';
import type { LineAt } from './line-at.ts';
import { describeName, unitsFor } from './measure-names.ts';
import type { Offer } from './offer.ts';
import { footWritten, viewOf, type OpenBlocks } from './open-blocks.ts';
import { datesItself } from './snippet.ts';

/** What may come next on a line whose first word stands. Forms of a word that go on alike offer it once. */
export function argumentOffers(
  open: OpenBlocks,
  line: LineAt,
  { today, findings }: { readonly today: string; readonly findings: readonly Finding[] },
): Iterable<Offer> {
  const byLabel = new Map<string, Offer>();
  for (const offer of offers(open, line, today, findings))
    if (!byLabel.has(offer.label)) byLabel.set(offer.label, offer);
  return byLabel.values();
}

function* offers(open: OpenBlocks, line: LineAt, today: string, findings: readonly Finding[]): Iterable<Offer> {
  const [head, ...rest] = line.items;
  if (head?.kind !== 'word') return;
  const forms = formsOf(head.image, open);
  const numeric = /^-?\d/.test(line.typed.image);
  const place: ArgumentPlace = { head: head.image, rest, open, line, today, findings };
  for (const expected of expectedAfter(forms, rest)) yield* offersFor(expected, place, numeric);
  // A number that the cursor still touches is part of what is typed; behind it its unit may follow at once.
  if (numeric && line.atEnd && !line.goesOn)
    for (const expected of expectedAfter(forms, [...rest, ...typedNumber(line)]))
      if (expected.kind === 'unit') yield* unitOffers(expected, place, true);
}

interface ArgumentPlace {
  readonly head: string;
  readonly rest: readonly Item[];
  readonly open: OpenBlocks;
  readonly line: LineAt;
  readonly today: string;
  readonly findings: readonly Finding[];
}

function formsOf(head: string, { blocks }: OpenBlocks): readonly Form[] {
  const places: readonly Container[] = [...blocks.map(({ word }) => word), 'file'];
  const row = findRow(head);
  if (row && row.in.some((place) => places.includes(place))) return row.takes;
  if (findLandmark(head) && places.some((place) => place === 'film' || place === 'photo')) return [placingForm];
  const [innermost] = places;
  if (innermost === 'limits') return limitForms;
  if (innermost === 'tape') return [tapeForm];
  return row?.takes ?? [];
}

function typedNumber({ typed }: LineAt): readonly Item[] {
  const items = parseLines(typed.image)[0]?.items ?? [];
  return items.length === 1 && items[0]?.kind === 'number' && !items[0].unit ? items : [];
}

function* offersFor(expected: Expected, place: ArgumentPlace, numeric: boolean): Iterable<Offer> {
  const { argument } = expected;
  if (expected.kind === 'unit') return yield* numeric ? [] : unitOffers(expected, place, false);
  if (argument.take === 'date') return yield* datesItself(place.head) ? [dateOffer(place.today)] : [];
  if (numeric) return;
  switch (argument.take) {
    case 'foot':
      return yield* feet
        .filter((foot) => !written(place, foot))
        .map((foot) => ({
          label: foot,
          kind: CompletionItemKind.EnumMember,
          documentation: footDoc[foot],
          text: foot,
        }));
    case 'choice':
      return yield* argument.of.filter((word) => !written(place, word)).map(choiceOffer);
    case 'word':
      return yield* argument.known.filter((word) => !written(place, word)).map(choiceOffer);
    case 'mark':
      return yield argument.text === 'because'
        ? becauseOffer(place.line)
        : argument.text === 'followed'
          ? { ...choiceOffer(argument.text), documentation: placingDoc.followed }
          : choiceOffer(argument.text);
    case 'relation':
      return yield* ['>=', '<='].map(choiceOffer);
    case 'finding':
      return yield* findingOffers(place.open, place.findings, place.line);
    case 'measure':
      return yield* place.head === 'accept'
        ? acceptedMeasureOffers(place.open, place.findings, place.rest)
        : measureOffers(place);
  }
}

function written({ rest }: ArgumentPlace, word: string): boolean {
  return rest.some((item) => item.kind === 'word' && item.image === word);
}

function choiceOffer(word: string): Offer {
  return { label: word, kind: CompletionItemKind.EnumMember, text: word };
}

function becauseOffer(line: LineAt): Offer {
  return { ...choiceOffer('because'), ...(!line.goesOn && { snippet: 'because "${1}"' }) };
}

function dateOffer(today: string): Offer {
  return { label: today, kind: CompletionItemKind.Value, documentation: t('Today.'), text: today };
}

/** Those of the picture's view, each with its unit; a hind foot has a plantar angle. */
function* measureOffers({ open, line }: ArgumentPlace): Iterable<Offer> {
  const hind = open.blocks.some((block) => footWritten(block)?.endsWith('H'));
  const view = open.blocks.map(viewOf).find((found) => found !== null);
  for (const measure of measures) {
    if (view && measure.view !== view) continue;
    const [unit] = unitsFor(measure);
    if (!unit) continue;
    const name = hind ? (measure.alias ?? measure.name) : measure.name;
    yield {
      label: name,
      kind: CompletionItemKind.Property,
      documentation: describeName(measure),
      text: line.goesOn ? name : `${name} `,
      ...(!line.goesOn && { snippet: `${name} \${1} ${unit}` }),
    };
  }
}

function* unitOffers({ argument }: Expected, { head, rest }: ArgumentPlace, touching: boolean): Iterable<Offer> {
  const dimension = argument.take === 'quantity' ? argument.dimension : null;
  const named = [head, ...rest.map((item) => (item.kind === 'word' ? item.image : ''))]
    .map((name) => findMeasure(name) ?? findHandMeasure(name))
    .find((measure) => measure);
  const words = dimension
    ? unitsOf(dimension).map((unit) => unit.word)
    : named
      ? unitsFor(named)
      : ['mm', 'cm', 'in', 'deg', '%'];
  for (const word of words) {
    const documentation = (dimension && findUnit(word, dimension)?.doc) ?? describeUnit(word, null);
    yield {
      label: word,
      kind: CompletionItemKind.Unit,
      ...(documentation && { documentation }),
      text: touching ? ` ${word}` : word,
      ...(touching && { after: true as const }),
    };
  }
}
