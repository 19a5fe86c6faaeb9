import { CompletionItemKind } from 'vscode-languageserver';
import { handMeasures, type HandMeasure } from '../../../shared/measures/by-hand.ts';
import { measures } from '../../../shared/measures/registry.ts';
import type { Measure } from '../../../shared/measures/registry.ts';
import { landmarks, type Landmark } from '../../../shared/notation/landmarks.ts';
import { landmarksShown } from '../../../shared/notation/photo-landmarks.ts';
import { writeArgument } from '../../../shared/notation/signature.ts';
import type { Entry, Tree } from '../../../shared/notation/tree.ts';
import {
  findBlock,
  formsIn,
  rowsIn,
  type BlockWord,
  type Container,
  type WordRow,
} from '../../../shared/notation/vocabulary.ts';
import { describeLandmark } from '../describe/landmark.ts';
import { describeRow } from '../describe/word.ts';
import type { LineAt } from './line-at.ts';
import { describeName, unitsFor } from './measure-names.ts';
import type { Offer } from './offer.ts';
import { viewOf, type OpenBlock, type OpenBlocks } from './open-blocks.ts';
import { isSaid, placedIn, tapedIn } from './said.ts';
import { snippetOf } from './snippet.ts';

const pictures: readonly BlockWord[] = ['film', 'photo'];

/** Everything that a line may begin with here: of the block that the indentation speaks for first, then of the others. */
export function* lineStartOffers(open: OpenBlocks, line: LineAt, tree: Tree, today: string): Iterable<Offer> {
  if (/^-?\d/.test(line.typed.image)) return;
  for (const block of likeliestFirst(open, line))
    yield* block ? inBlock(block, open, line, today) : inFile(tree, line, today);
}

/** Null stands for the file itself. Where nothing is indented, the innermost block is as likely as before. */
function likeliestFirst({ blocks, column }: OpenBlocks, line: LineAt): (OpenBlock | null)[] {
  const all = [...blocks, null];
  if (line.indentation >= column) return all;
  const meant = blocks.find((block) => block.column < line.indentation) ?? null;
  return [meant, ...all.filter((block) => block !== meant)];
}

function* inBlock(block: OpenBlock, { blocks }: OpenBlocks, line: LineAt, today: string): Iterable<Offer> {
  const { word, entries } = block;
  // A landmark goes to the innermost reading, so a film with an open `read` offers none of its own.
  if (word === 'read' || (pictures.includes(word) && !blocks.some((one) => one.word === 'read'))) {
    const picture = blocks.find((one) => pictures.includes(one.word)) ?? block;
    yield* landmarkOffers(picture, placedIn(entries), line);
  }
  if (word === 'tape') {
    const taped = tapedIn(entries);
    yield* [...measures.filter(({ byHand }) => byHand), ...handMeasures]
      .filter(({ name }) => !taped.has(name))
      .map((measure) => tapeOffer(measure, line));
  }
  if (word === 'limits')
    yield* measures.filter((measure) => unitsFor(measure).length > 0).map((measure) => limitOffer(measure, line));
  yield* words(word, entries, line, today);
}

function* inFile(tree: Tree, line: LineAt, today: string): Iterable<Offer> {
  const headers = tree.blocks.flatMap(({ start, block: { header } }) =>
    header && start + header.end > line.start && start + header.start <= line.typed.end
      ? []
      : header
        ? [{ at: start + header.start, header }]
        : [],
  );
  for (const offer of words(
    'file',
    headers.map(({ header }) => header),
    line,
    today,
  )) {
    if (offer.label === 'hoof' && headers.some(({ at }) => at < line.start)) continue;
    yield offer;
  }
}

function* words(place: Container, entries: readonly Entry[], line: LineAt, today: string): Iterable<Offer> {
  for (const row of rowsIn(place))
    for (const form of formsIn(row, place)) if (!isSaid(row, form, entries)) yield wordOffer(row, form, line, today);
}

function wordOffer(row: WordRow, form: WordRow['takes'][number], line: LineAt, today: string): Offer {
  const [first] = form;
  const label =
    row.takes.length > 1 && first?.take === 'mark' && /^[a-z]/.test(first.text)
      ? `${row.word} ${first.text}`
      : row.word;
  const takes = form
    .slice(label === row.word ? 0 : 1)
    .map(writeArgument)
    .join(' ');
  return {
    label,
    takes,
    documentation: describeRow(row),
    kind: findBlock(row.word) ? CompletionItemKind.Class : CompletionItemKind.Keyword,
    text: line.goesOn || form.length === 0 ? label : `${label} `,
    ...(!line.goesOn && { snippet: snippetOf(row.word, form, today) }),
  };
}

function landmarkOffers(picture: OpenBlock, placed: ReadonlySet<string>, line: LineAt): Offer[] {
  const view = viewOf(picture);
  const kind = picture.word === 'photo' ? 'photo' : 'film';
  const all: readonly Landmark[] = view ? landmarksShown(view, kind) : landmarks;
  return all
    .filter(({ word }) => !placed.has(word))
    .map((landmark) => ({
      label: landmark.word,
      kind: CompletionItemKind.Field,
      documentation: describeLandmark(landmark, {}),
      text: line.goesOn ? landmark.word : `${landmark.word} @ `,
    }));
}

function tapeOffer(measure: Measure | HandMeasure, line: LineAt): Offer {
  const [unit = ''] = unitsFor(measure);
  return {
    label: measure.name,
    kind: CompletionItemKind.Property,
    documentation: describeName(measure),
    text: line.goesOn ? measure.name : `${measure.name} `,
    ...(!line.goesOn && { snippet: `${measure.name} \${1} ${unit}` }),
  };
}

function limitOffer(measure: Measure, line: LineAt): Offer {
  const [unit = ''] = unitsFor(measure);
  return {
    label: measure.name,
    kind: CompletionItemKind.Property,
    documentation: describeName(measure),
    text: line.goesOn ? measure.name : `${measure.name} `,
    ...(!line.goesOn && { snippet: `${measure.name} \${1|>=,<=|} \${2} ${unit}` }),
  };
}
