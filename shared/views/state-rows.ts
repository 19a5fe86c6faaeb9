import { sayQuantity } from '../language/figures.ts';
import { spoken } from '../language/rows.ts';
import { t } from '../language/words.ts';
import { pulses } from '../notation/choices.ts';
import { dayNumber } from '../notation/dates.ts';
import { footWords, list } from '../findings/wording/wording.ts';
import type { CaseRecord, Quantity, Visit } from '../record/schema.ts';

/** How the animal is, as the case writes it: of each thing the newest value and the one of an earlier day before it. */
export interface StateRow {
  readonly of: StateName;
  readonly words: string;
  readonly now: StateValue;
  readonly before: StateValue | null;
  /** Now less before; null where the two are no numbers, or of different units. */
  readonly difference: number | null;
}

export interface StateValue {
  readonly date: string;
  readonly text: string;
  readonly number: number | null;
  readonly unit: string;
}

export type StateName = keyof typeof words;

const words = spoken({
  lameness: 'Lameness (Obel)',
  ground: 'Lameness over ground',
  score: 'Modified Obel score',
  pulse: 'Pulse at the feet',
  weight: 'Weight',
  condition: 'Body condition',
  crest: 'Crest of the neck',
  insulin: 'Insulin',
  temperature: 'Temperature',
});

type TakenState = Omit<StateValue, 'date'> | null;

const takers: Readonly<Record<StateName, (is: Visit) => TakenState>> = {
  lameness: ({ obel, gradesUnread }) => {
    const unread = gradesUnread.find(({ scale }) => scale === 'obel');
    return unread
      ? { text: t('“{0}”, which is no grade', unread.written), number: null, unit: '' }
      : obel && { text: t('{0} of 4', obel.value), number: obel.value, unit: '' };
  },
  ground: ({ lameness }) => {
    const worst = lameness.length === 0 ? null : Math.max(...lameness.map(({ grade }) => grade));
    return worst === null ? null : { text: t('{0} of 5', worst), number: worst, unit: '' };
  },
  score: ({ meier }) => meier && { text: t('{0} of 12', meier.value), number: meier.value, unit: '' },
  pulse: ({ pulses: told }) => {
    if (told.length === 0) return null;
    const graded = [...pulses].reverse().flatMap((pulse) => {
      const those = told.filter((one) => one.pulse === pulse).flatMap(({ feet }) => feet);
      return those.length === 0
        ? []
        : [`${pulseWords[pulse]}: ${list([...new Set(those)].map((foot) => footWords[foot]))}`];
    });
    return { text: graded.join('; '), number: null, unit: '' };
  },
  weight: ({ weight }) => weight && ofQuantity(weight),
  condition: ({ condition }) =>
    condition && { text: t('{0} of 9', condition.value), number: condition.value, unit: '' },
  crest: ({ crest }) => crest && { text: t('{0} of 5', crest.value), number: crest.value, unit: '' },
  insulin: ({ laboratory }) => {
    const those = laboratory.filter(({ of }) => of === 'insulin');
    if (those.length === 0) return null;
    const text = those
      .map(({ value, above, fasting, after }) => {
        const plain = `${above ? t('over ') : ''}${sayQuantity(value)}`;
        if (fasting) return t('{0} fasting', plain);
        return after === null ? plain : t('{0}, {1} minutes after syrup', plain, after);
      })
      .join('; ');
    return { text, number: null, unit: '' };
  },
  temperature: ({ temperatures }) => {
    const last = temperatures.at(-1);
    return last ? ofQuantity(last) : null;
  },
};

const pulseWords = spoken({ absent: 'absent', normal: 'normal', raised: 'raised', bounding: 'bounding' });

const ofQuantity = (quantity: Quantity): TakenState => ({
  text: sayQuantity(quantity),
  number: quantity.value,
  unit: quantity.unit,
});

export function stateRows({ visits }: CaseRecord): StateRow[] {
  const dated = visits
    .flatMap(({ is }) => {
      const day = is.date === null ? null : dayNumber(is.date);
      return is.date === null || day === null ? [] : [{ is, date: is.date, day }];
    })
    .toSorted((a, b) => a.day - b.day);
  return (Object.keys(takers) as StateName[]).flatMap((of) => {
    const taken = dated.flatMap(({ is, date }): StateValue[] => {
      const value = takers[of](is);
      return value ? [{ ...value, date }] : [];
    });
    const now = taken.at(-1);
    if (!now) return [];
    const before = taken.findLast(({ date }) => date !== now.date) ?? null;
    const isComparable = before !== null && before.number !== null && now.number !== null && before.unit === now.unit;
    return [
      {
        of,
        words: words[of],
        now,
        before,
        difference: isComparable ? (now.number ?? 0) - (before.number ?? 0) : null,
      },
    ];
  });
}
