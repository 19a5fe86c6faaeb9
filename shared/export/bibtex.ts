import { strengthWords, type Strength } from '../reference/sources.ts';
import type { Work } from '../reference/works.ts';

/** A work as it is cited, and how strong the ground under what is taken from it is. */
export interface CitedWork {
  readonly work: Work;
  readonly strength: Strength;
}

/**
 * A list of references as BibTeX, UTF-8, an entry a work in the order in which they come. A remark above an entry says where something
 * has to be looked up before it is printed. What is not known is left out.
 */
export function bibtex(cited: readonly CitedWork[]): string {
  return cited.map(entry).join('\n');
}

function entry({ work, strength }: CitedWork): string {
  const remarks = [
    strengthWords[strength] !== '' && `% What is taken from it stands here ${strengthWords[strength]}.`,
    work.fromMemory && '% This entry is from memory: look it up before you print it.',
  ].filter((remark) => typeof remark === 'string');
  const fields = fieldsOf(work).map(([name, value]) => `  ${name} = {${value}},`);
  return [...remarks, `@${work.kind}{${work.key},`, ...fields, '}', ''].join('\n');
}

function fieldsOf(work: Work): (readonly [string, string])[] {
  const { authors, title, journal, year, volume, number, pages, edition, school, doi, note } = work;
  const fields: (readonly [string, string | undefined])[] = [
    ['author', authors?.map(name).join(' and ')],
    // A second pair of braces, as a style would else write names of breeds and places in small letters.
    ['title', title && `{${escape(title)}}`],
    ['journal', journal && escape(journal)],
    ['year', year === undefined ? undefined : String(year)],
    ['volume', volume && escape(volume)],
    ['number', number && escape(number)],
    ['pages', pages?.join('--')],
    ['edition', edition && escape(edition)],
    ['school', school && escape(school)],
    // A DOI is read as it stands by the packages that make a link of it.
    ['doi', doi],
    ['note', note && escape(note)],
  ];
  return fields.flatMap(([key, value]) => (value === undefined || value === '' ? [] : [[key, value] as const]));
}

/** `others` is BibTeX's own word; a name of several words without a comma is one family name. */
const name = (author: string): string =>
  author === 'others' || author.includes(',') || !author.includes(' ') ? escape(author) : `{${escape(author)}}`;

const signs: Readonly<Record<string, string>> = {
  '\\': '\\textbackslash{}',
  '~': '\\textasciitilde{}',
  '^': '\\textasciicircum{}',
};

/** The signs that TeX reads as its own. */
const escape = (text: string): string => text.replace(/[\\~^{}%&$#_]/g, (sign) => signs[sign] ?? `\\${sign}`);
