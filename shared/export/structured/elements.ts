import type { ArchivedFilm } from '../../picture/archived-film.ts';
import type { Code } from './codes.ts';

/** Elements of a data set by their tag, as DICOM's own JSON has them (PS3.18 F.2). */
export interface Elements {
  readonly [tag: string]: Element;
}

interface Element {
  readonly vr: string;
  readonly Value: readonly (string | number | Elements)[];
}

/** Characters, PS3.5 6.2; null where the kind has no such bound. */
const longest: Readonly<Record<string, number>> = { CS: 16, SH: 16, LO: 64, PN: 64 };

/** A text of one value without the marks that would part or end it; an empty one where there is none. */
export function text(vr: string, value: string): Element {
  const most = longest[vr];
  const plain = withoutMarks(value).trim();
  const letters = [...plain];
  const fits = most === undefined || letters.length <= most ? plain : `${letters.slice(0, most - 1).join('')}…`;
  return { vr, Value: [fits] };
}

/** A backslash parts values; controls mean nothing in a short text. */
const withoutMarks = (value: string): string => value.replaceAll(/[\\\p{Cc}\p{Cs}]/gu, ' ');

export function longText(value: string): Element {
  const plain = value.replaceAll(/[^\P{C}\n\p{Cf}]/gu, ' ').trim();
  return { vr: 'UT', Value: [plain === '' ? '-' : plain] };
}

/** `^` parts the components of a name, `=` its writings. */
export const personName = (name: string): Element => text('PN', name.replaceAll(/[\^=]/g, ' '));

/** Of an animal the first component is the person who answers for it, the second its own name (PS3.5 6.2.1.1). */
export function animalName(name: string): Element {
  const [plain] = personName(name).Value;
  return { vr: 'PN', Value: [typeof plain === 'string' && plain !== '' ? `^${[...plain].slice(0, 63).join('')}` : ''] };
}

export const sequence = (...items: readonly Elements[]): Element => ({ vr: 'SQ', Value: items });

/** PS3.3 8.8; a code of more than 16 characters has an attribute of its own. */
export const coded = ({ value, scheme, meaning }: Code): Element =>
  sequence({
    ...(value.length <= 16 ? { '00080100': text('SH', value) } : {}),
    '00080102': text('SH', scheme),
    '00080104': text('LO', meaning),
    ...(value.length <= 16 ? {} : { '00080119': text('UC', value) }),
  });

export const references = ({ sopClass, instance, isOfMany }: ArchivedFilm): Elements => ({
  '00081150': text('UI', sopClass),
  '00081155': text('UI', instance),
  ...(isOfMany && { '00081160': text('IS', '1') }),
});
