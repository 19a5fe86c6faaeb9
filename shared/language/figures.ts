/**
 * Numbers as a person of the language writes them: `12,3` in German. For what is said and drawn only; the notation, JSON and
 * CSV have the point.
 */

let mark = '.';

/** From now on numbers are written as in this language. What `Intl` does not know is written with the point. */
export function writeFiguresIn(language: string): void {
  mark = isKnown(language)
    ? (new Intl.NumberFormat(language).formatToParts(0.5).find(({ type }) => type === 'decimal')?.value ?? '.')
    : '.';
}

/** Whether numbers and dates of a language are known; what is no name of a language is none. */
export const isKnown = (language: string): boolean =>
  /^[a-z]{2,3}(?:-[a-z0-9]{2,8})*$/i.test(language) && Intl.NumberFormat.supportedLocalesOf(language).length > 0;

/** With as many decimals as it has. */
export const figures = (value: number): string => marked(String(value));

/** With so many decimals, rounded as `toFixed` does. */
export const fixed = (value: number, decimals: number): string => marked(value.toFixed(decimals));

/** A quantity as it was written, in its own unit: `14,5 mm`. */
export const sayQuantity = ({ value, unit }: { readonly value: number; readonly unit: string }): string =>
  `${figures(value)} ${unit}`;

/** Figures with a point, as a computer writes them, in those of the language. */
export const marked = (written: string): string => (mark === '.' ? written : written.replace('.', mark));
