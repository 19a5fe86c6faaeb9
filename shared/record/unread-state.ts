import { feet, pulses, type FootName } from '../notation/choices.ts';
import { landmarkNames } from '../notation/landmarks.ts';
import { nearestMeaning } from '../notation/meanings.ts';
import { editDistance, nearest } from '../notation/nearest.ts';
import type { Item, Line, Span } from '../notation/tree.ts';
import { denials, rowsIn, signs } from '../notation/vocabulary.ts';
import { gradeOf } from './unread-grade.ts';
import type { Visit } from './schema.ts';

/** What of an animal's state a line says that is not understood. */
export type UnreadState = Pick<Visit, 'gradesUnread' | 'signs' | 'pulses' | 'temperatures'>;

/** Words by which the state of an animal is told, and how bad it is. */
const stateWords = ['obel', 'meier', 'lameness', 'sign', 'pulse', 'temperature'] as const;
type StateWord = (typeof stateWords)[number];

const known = [...new Set([...rowsIn('visit').map(({ word }) => word), ...landmarkNames, ...signs, 'signs'])];
const signNames: ReadonlySet<string> = new Set(signs);

/** A word, a figure or a sign of a line. */
interface Piece extends Span {
  readonly image: string;
  /** Within quotes: free text, which begins nothing. */
  readonly quoted: boolean;
  /** Where it stands right behind the piece before. */
  readonly joined: boolean;
}

/**
 * The grave of a line that is otherwise not understood: `sings fever`, `obel2 4`, `puls LF bounding`, `lamness LF 5`, `LF obel 3`.
 * Somebody has seen it, and a slip must not silence a call to the vet. Only the words of the notation are looked for, and what stands
 * behind them; prose, remarks and texts are not.
 */
export function unreadState(line: Line): UnreadState {
  const pieces = piecesOf(line.items);
  const state: UnreadState = { gradesUnread: [], signs: [], pulses: [], temperatures: [] };
  const begins = pieces.map((piece, index) => stateWordOf(piece, index === 0));
  begins.forEach((word, from) => {
    if (word === null || denials.has(pieces[from - 1]?.image.toLowerCase() ?? '')) return;
    const next = begins.findIndex((other, index) => index > from && other !== null);
    const behind = pieces.slice(from + 1, next < 0 ? pieces.length : next);
    const head = pieces[from] as Piece;
    switch (word) {
      case 'sign':
        state.signs.push(...signsOf(signNames.has(head.image.toLowerCase()) ? [head, ...behind] : behind, head));
        break;
      case 'pulse':
        state.pulses.push(...boundingOf(pieces));
        break;
      case 'temperature':
        state.temperatures.push(...temperatureOf(behind));
        break;
      default:
        state.gradesUnread.push(gradeOf(word === 'lameness' ? 'ground' : word, written(behind), spanOf(behind, head)));
    }
  });
  return state;
}

/** `signfever` and `pulseLF` are two words. */
const pieceForm = new RegExp(
  `signs?(?=${signs.join('|')})|(?:${feet.join('|')})(?=bounding)|pulses?(?=(?:${feet.join('|')})(?!\\p{L}))|\\p{L}+|\\d+(?:[.,]\\d+)?\\+?|[^\\s"]`,
  'giu',
);

/** Words, figures and signs apart, so that `obel2`, `obel:4` and `sign-fever` begin with a word. */
function piecesOf(items: readonly Item[]): Piece[] {
  const pieces = items.flatMap((item, index) => {
    const { start, end } = item;
    const stuck = index === 0 && item.kind === 'word' ? signWithin(item.image.toLowerCase()) : undefined;
    if (stuck) return [{ image: stuck, start, end, quoted: false, joined: false }];
    const images = imageOf(item).match(pieceForm) ?? [];
    const joins = items[index - 1]?.end === start;
    return images.map((image, at) => ({ image, start, end, quoted: item.kind === 'text', joined: at > 0 || joins }));
  });
  return whole(pieces);
}

/** `signxfever`: a sign that is stuck to the word before it. */
const signWithin = (word: string): string | undefined =>
  signs.find((sign) => word !== sign && word.endsWith(sign) && word.startsWith('s'));

/** Words of the notation with a hyphen in them, `coronet-gap`, are one piece. */
function whole(pieces: readonly Piece[]): Piece[] {
  const result: Piece[] = [];
  for (let at = 0; at < pieces.length; at++) {
    const piece = pieces[at] as Piece;
    const found = signs.find((sign) => {
      const parts = sign.split(/(-)/);
      return parts.length > 1 && parts.every((part, index) => pieces[at + index]?.image.toLowerCase() === part);
    });
    result.push(found === undefined ? piece : { ...piece, image: found });
    if (found !== undefined) at += found.split(/(-)/).length - 1;
  }
  return result;
}

function imageOf(item: Item): string {
  switch (item.kind) {
    case 'number':
      return `${item.number.fraction ?? item.number.image}${item.unit ? ` ${item.unit.image}` : ''}`;
    case 'point':
      return `${item.x.image},${item.y.image}`;
    case 'segment':
      return [...item.from, ...item.to].map(({ image }) => image).join(' ');
    default:
      return item.image;
  }
}

/** The word of the notation that a piece is. The first of a line may be one nearly; of the others only one to the letter begins anew. */
function stateWordOf({ image, quoted }: Piece, first: boolean): StateWord | null {
  const small = image.toLowerCase();
  if (quoted || !/^\p{L}/u.test(small)) return null;
  if (small === 'signs' || (first && signNames.has(small))) return 'sign';
  if (small === 'pulses') return 'pulse';
  const exact = stateWords.find((word) => word === small);
  if (exact || !first) return exact ?? null;
  if (isNearSign(small)) return 'sign';
  const meant = nearestMeaning(small, known) ?? glued(small);
  return meant === undefined
    ? null
    : meant === 'signs' || signNames.has(meant)
      ? 'sign'
      : (stateWords.find((word) => word === meant) ?? null);
}

/** `obelgrade`, `signfever` */
const glued = (word: string): string | undefined =>
  stateWords.find((one) => word.startsWith(one) && word.length > one.length);

const isNearSign = (word: string): boolean => ['sign', 'signs'].some((one) => editDistance(word, one) < 2);

/** What is said between signs, and is none. */
const fillers = new Set(
  'a an and or nor the of on in at with has is was had seen yes also still some slight mild severe'.split(' '),
);

/**
 * Known signs but for those that are denied: `no fever`, `fever none`, `no fever or discharge`. Any other word too, as in a right line,
 * where the word before is `sign` but for a letter; `signed "T. B."` is something else.
 */
function signsOf(pieces: readonly Piece[], head: Piece): Visit['signs'] {
  const found: Visit['signs'] = [];
  const small = head.image.toLowerCase();
  let all = isNearSign(small) && /^signs?$/.test(nearestMeaning(small, known) ?? '');
  let denied = false;
  let before = false;
  for (const { image, start, end, quoted } of pieces) {
    const said = image.toLowerCase();
    if (denials.has(said)) {
      denied = true;
      // `none that I saw`: what stands behind it are no signs, but for those that are known.
      if (said === 'none' || said === 'nil') all = false;
    } else if (said === 'or' || said === 'nor') denied = before;
    else if (/^\p{L}/u.test(said) && !fillers.has(said) && !isFoot(said)) {
      const word = nearest(said, signs) ?? (all && !quoted ? said : null);
      if (!denied && word !== null) found.push({ word, at: { start, end }, unread: true });
      before = denied;
      denied = false;
    }
  }
  // `fever: none`
  if (denied && pieces[0] === head && found.length === 1) return [];
  return found;
}

const isFoot = (word: string): boolean => (feet as readonly string[]).includes(word.toUpperCase());

/** A bounding pulse, of the feet that are named. Of any foot where none is, or where a word may be one: nobody knows which. */
function boundingOf(pieces: readonly Piece[]): Visit['pulses'] {
  const at = pieces.findIndex(({ image }) => nearestMeaning(image.toLowerCase(), pulses) === 'bounding');
  const piece = pieces[at];
  if (!piece || denials.has(pieces[at - 1]?.image.toLowerCase() ?? '')) return [];
  const words = pieces.filter(({ image }, index) => index !== at && /^\p{L}/u.test(image) && !isOfPulse(image));
  const named = feet.filter((foot) => words.some(({ image }) => feetOf(image).includes(foot)));
  const isSure = named.length > 0 && words.every(({ image }) => feetOf(image).length > 0);
  const { start, end } = piece;
  return [{ feet: isSure ? named : [...feet], pulse: 'bounding', at: { start, end }, unread: true }];
}

/** Whether a word is the line's own, or says nothing of a foot. */
const isOfPulse = (image: string): boolean =>
  fillers.has(image.toLowerCase()) || nearestMeaning(image.toLowerCase(), ['pulse', 'pulses', 'digital']) !== undefined;

function feetOf(image: string): readonly FootName[] {
  const small = image.toLowerCase();
  if (/^(?:fores?|fronts?)$/.test(small)) return ['LF', 'RF'];
  if (/^hinds?$/.test(small)) return ['LH', 'RH'];
  if (/^all$/.test(small)) return feet;
  const meant = image.length > 3 ? nearestMeaning(small, feet) : image.toUpperCase();
  return feet.filter((foot) => foot === meant);
}

/** Degrees that an animal may have, in either unit; without a unit as the figure says. Range: 30 to 44 °C, that of the notation. */
function temperatureOf(pieces: readonly Piece[]): Visit['temperatures'] {
  return pieces.flatMap(({ image, start, end }) => {
    const value = /^\d/.test(image) ? parseFloat(image.replace(',', '.')) : NaN;
    const unit = value >= 30 && value <= 44 ? 'C' : value >= 86 && value <= 111.2 ? 'F' : null;
    if (unit === null) return [];
    return [{ value, unit, base: unit === 'C' ? value : ((value - 32) * 5) / 9, at: { start, end } }];
  });
}

/** As it stands in the line. */
function written(pieces: readonly Piece[]): string {
  return pieces
    .map(({ image, joined }, index) => `${index > 0 && !joined ? ' ' : ''}${image}`)
    .join('')
    .replace(/^[:=]\s*/, '');
}

function spanOf(pieces: readonly Piece[], head: Piece): Span {
  const [first] = pieces.filter(({ image }) => !/^[:=]$/.test(image));
  return { start: (first ?? head).start, end: (pieces.at(-1) ?? head).end };
}
