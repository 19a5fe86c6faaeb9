import { spoken } from '../language/rows.ts';
import { t } from '../language/words.ts';
import { sayRange } from './in-range.ts';
import type { Argument, Form } from './signature.ts';

/** How high and how low the numbers of an argument may be, `50 to 220 cm`; null where it takes none. */
export function rangeWords(argument: Argument): string | null {
  switch (argument.take) {
    case 'number':
      // Which versions there are is told where a file names one.
      return argument.name === 'version' ? null : `${sayRange(argument.range)}${stepWords(argument.step)}`;
    case 'quantity':
    case 'point':
    case 'segment':
      return sayRange(argument.range);
    case 'measured':
      return severalWords(argument.ranges);
    case 'spread':
      return argument.measured ? severalWords(argument.ranges) : sayRange(argument.range);
    default:
      return null;
  }
}

export function stepWords(step: number | undefined): string {
  return step === 0.25 ? t(' in quarters') : step === 0.5 ? t(' in halves') : step === 1 ? t(', whole numbers') : '';
}

function severalWords(ranges: Extract<Argument, { take: 'measured' }>['ranges']): string {
  const { plain, ...withUnit } = ranges;
  return t('{0}, or {1} without a unit', Object.values(withUnit).map(sayRange).join(', '), sayRange(plain));
}

/** The same of all that a word takes, as a sentence; empty where it takes no number. Of places nothing is said: they have one range everywhere. */
export function formsRangeWords(forms: readonly Form[]): string {
  const said = new Map<string, string>();
  for (const argument of forms.flat()) {
    const words = argument.take === 'point' || argument.take === 'segment' ? null : rangeWords(argument);
    if (words !== null && !said.has(words)) said.set(words, argument.name);
  }
  const [[only] = [''], ...others] = said;
  if (others.length === 0) return only === '' ? '' : t('From {0}.', only);
  return `${capital([...said].map(([words, name]) => t('the {0} from {1}', argumentWords[name] ?? name, words)).join('; '))}.`;
}

/** Names of arguments, where a word takes several numbers and each has its range. */
const argumentWords: Readonly<Record<string, string>> = spoken({
  amount: 'amount',
  delay: 'delay',
  'known length': 'known length',
  pixel: 'pixel',
  thickness: 'thickness',
  tolerance: 'tolerance',
  value: 'value',
  wedge: 'wedge',
});

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);
