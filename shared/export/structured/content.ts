import type { ArchivedFilm } from '../../picture/archived-film.ts';
import type { Code } from './codes.ts';
import { coded, longText, personName, references, sequence, text, type Elements } from './elements.ts';

/** How an item stands to the one that holds it, PS3.3 C.17.3.2.4. */
type Relation = 'CONTAINS' | 'HAS OBS CONTEXT' | 'HAS CONCEPT MOD' | 'HAS PROPERTIES' | 'INFERRED FROM';

type Held =
  | { readonly type: 'CONTAINER'; readonly template?: string }
  | { readonly type: 'TEXT'; readonly text: string }
  | { readonly type: 'PNAME'; readonly text: string }
  | { readonly type: 'CODE'; readonly code: Code }
  | { readonly type: 'UIDREF'; readonly uid: string }
  | { readonly type: 'NUM'; readonly unit: Code; readonly value: number }
  /** A number that is not there, and why. */
  | { readonly type: 'NUM'; readonly unit: Code; readonly lack: Code }
  | { readonly type: 'IMAGE'; readonly film: ArchivedFilm };

/** One item of the content tree, PS3.3 C.17.3. Plain data: what a report says, before it is DICOM. */
export type ContentItem = Held & {
  /** Null for the root alone. */
  readonly relation: Relation | null;
  /** Null for an entry of the image library, which the template wants without one. */
  readonly name: Code | null;
  readonly items?: readonly ContentItem[];
};

/** The item as the elements of a data set, with all that it holds. */
export function contentElements(item: ContentItem): Elements {
  const { relation, name, items = [] } = item;
  return {
    ...(relation !== null && { '0040A010': text('CS', relation) }),
    '0040A040': text('CS', item.type),
    ...(name !== null && { '0040A043': coded(name) }),
    ...heldElements(item),
    ...(items.length > 0 && { '0040A730': sequence(...items.map(contentElements)) }),
  };
}

function heldElements(item: ContentItem): Elements {
  switch (item.type) {
    case 'CONTAINER':
      return {
        '0040A050': text('CS', 'SEPARATE'),
        ...(item.template !== undefined && {
          '0040A504': sequence({ '00080105': text('CS', 'DCMR'), '0040DB00': text('CS', item.template) }),
        }),
      };
    case 'TEXT':
      return { '0040A160': longText(item.text) };
    case 'PNAME':
      return { '0040A123': personName(item.text) };
    case 'CODE':
      return { '0040A168': coded(item.code) };
    case 'UIDREF':
      return { '0040A124': text('UI', item.uid) };
    case 'IMAGE':
      return { '00081199': sequence(references(item.film)) };
    case 'NUM':
      return 'lack' in item
        ? { '0040A300': sequence(), '0040A301': coded(item.lack) }
        : {
            '0040A300': sequence({
              ...numberElements(item.value),
              '004008EA': coded(item.unit),
            }),
          };
  }
}

/** A decimal string has 16 characters at most (PS3.5 6.2); where they do not hold the number it stands beside, as it is. */
function numberElements(value: number): Elements {
  const written = decimalString(value);
  return {
    '0040A30A': text('DS', written),
    ...(Number(written) !== value && { '0040A161': { vr: 'FD', Value: [value] } }),
  };
}

/** A number in 16 characters, with as many of its digits as they can hold. */
export function decimalString(value: number): string {
  for (let digits = 16; digits > 1; digits--) {
    const rounded = Number(value.toPrecision(digits));
    const fits = [String(rounded), rounded.toExponential()].find(({ length }) => length <= 16);
    if (fits !== undefined) return fits;
  }
  return value.toExponential(0);
}
