import { sayQuantity } from '../language/figures.ts';
import { t } from '../language/words.ts';
import { spoken } from '../language/rows.ts';
import { sayDate } from '../findings/wording/say-day.ts';
import { footWords, list, sentence } from '../findings/wording/wording.ts';
import { feet, type FootName, type WornKind } from '../notation/choices.ts';
import { dayNumber } from '../notation/dates.ts';
import type { CaseRecord, Medicine, Visit } from '../record/schema.ts';
import { Wearing } from '../record/wearing.ts';

/** Something that the case says was agreed, in its own words and with its day. */
export interface AgreedLine {
  readonly of: AgreedName;
  /** What it is of: `Feed`, `Boots, left fore`. */
  readonly words: string;
  /** As written; empty where the case gives no words. */
  readonly text: string;
  readonly date: string | null;
  /** What the program says beside it: `until 11 May 2026`. */
  readonly beside: string;
}

export type AgreedName = 'feed' | 'turnout' | 'worn' | 'medicine' | 'vet';

/** The newest that the case says of each; of feed, turnout and vet all lines of the newest visit that has one. `day`: of the page. */
export function agreedLines({ visits }: CaseRecord, day: number): AgreedLine[] {
  const newest = newestFirst(visits.map(({ is }) => is));
  const ofNewest = (of: AgreedName, words: string, take: (is: Visit) => readonly AgreedText[]): AgreedLine[] => {
    const visit = newest.find((is) => take(is).length > 0);
    return visit
      ? take(visit).map(({ text, date, beside }) => ({ of, words, text, date: date ?? visit.date, beside }))
      : [];
  };
  return [
    ...ofNewest('feed', t('Feed'), ({ feed }) => feed.map(plain)),
    ...ofNewest('turnout', t('Turnout'), ({ turnout }) => turnout.map(plain)),
    ...wornLines(visits, day),
    ...ofNewest('medicine', t('Medicine'), ({ medicines }) => medicines.map((one) => medicineSaid(one, day))),
    ...ofNewest('vet', t('The vet'), ({ vet, seen }) => [
      ...vet.map(plain),
      ...seen.map(({ date, text }) => ({ text: text ?? '', date, beside: t('saw the animal') })),
    ]),
  ];
}

interface AgreedText {
  readonly text: string;
  readonly date?: string;
  readonly beside: string;
}

const plain = ({ text }: { readonly text: string }): AgreedText => ({ text, beside: '' });

function newestFirst(visits: readonly Visit[]): Visit[] {
  return visits
    .map((is, place) => ({ is, place, day: is.date === null ? -Infinity : (dayNumber(is.date) ?? -Infinity) }))
    .toSorted((a, b) => b.day - a.day || b.place - a.place)
    .map(({ is }) => is);
}

function medicineSaid({ name, dose, from, until }: Medicine, day: number): AgreedText {
  const end = until === null ? null : dayNumber(until);
  const when = [
    from && t('from {0}', sayDate(from)),
    until && t('until {0}', sayDate(until)),
    end !== null && end < day && t('this time is over'),
  ];
  return { text: [name, dose].filter((part) => part).join(', '), beside: when.filter((part) => part).join(', ') };
}

const kinds = spoken({ shoe: 'shoe', pad: 'pad', cast: 'cast', boots: 'boots' } satisfies Record<WornKind, string>);

/** What each foot wears by what is written, feet that wear the same together. */
function wornLines(visits: CaseRecord['visits'], day: number): AgreedLine[] {
  const wearing = new Wearing(visits);
  const alike = new Map<string, { readonly line: AgreedLine; readonly on: FootName[] }>();
  for (const foot of feet)
    for (const { kind, text, thickness, wedge, visit } of wearing.shoeOn(foot, day)?.items ?? []) {
      const size = [thickness, wedge && { ...wedge, unit: `${wedge.unit} ${t('wedge')}` }]
        .flatMap((one) => (one ? [sayQuantity(one)] : []))
        .join(', ');
      const key = JSON.stringify([kind, text, size, visit.is.date]);
      const known = alike.get(key);
      if (known) known.on.push(foot);
      else
        alike.set(key, {
          line: { of: 'worn', words: kinds[kind], text: text ?? '', date: visit.is.date, beside: size },
          on: [foot],
        });
    }
  return [...alike.values()].map(({ line, on }) => ({
    ...line,
    words: sentence(t('{0}, {1}', line.words, list(on.map((foot) => footWords[foot])))),
  }));
}
