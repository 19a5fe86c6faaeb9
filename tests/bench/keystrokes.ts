/** Where somebody types, and why it may matter. Each place is one of the generated cases', with the cursor behind it. */
export interface Keystroke {
  readonly what: string;
  readonly words: string;
  /** The offset at which digits come and go. */
  place(text: string): number;
}

/** Behind the first match of `pattern` in the visit that lies at a share of the whole. */
function inVisit(share: number, pattern: RegExp): Keystroke['place'] {
  return (text) => {
    const visits = [...text.matchAll(/^visit /gm)].map(({ index }) => index);
    const from = visits[Math.min(visits.length - 1, Math.floor(share * visits.length))] ?? 0;
    return behind(text, from, pattern);
  };
}

function behind(text: string, from: number, pattern: RegExp): number {
  const found = pattern.exec(text.slice(from));
  if (!found) throw new Error(`the case has no ${pattern.source}`);
  return from + found.index + found[0].length;
}

const title = /^visit \S+ "visit/m;
const number = /^ +p3\.tip +@ +\d+/m;

export const keystrokes: readonly Keystroke[] = [
  { what: 'first', words: 'in the title of the first visit', place: inVisit(0, title) },
  { what: 'middle', words: 'in the title of the middle visit', place: inVisit(0.5, title) },
  { what: 'last', words: 'in the title of the last visit', place: inVisit(1, title) },
  {
    what: 'number',
    words: 'in the place of a landmark of the middle visit: its film is measured anew',
    place: inVisit(0.5, number),
  },
  { what: 'name', words: 'in the animal’s name', place: (text) => behind(text, 0, /^case "/m) },
  {
    what: 'height',
    words: 'in the animal’s height, on which every finding may rest',
    place: (text) => behind(text, 0, /^ +height +148/m),
  },
];

/** The texts after ever other keystrokes at one place, none like the one before. */
export function typed(text: string, place: number): (step: number) => string {
  return (step) => `${text.slice(0, place)}${(step % 9) + 1}${text.slice(place)}`;
}
