/** A number with a fraction of an inch behind it, `3 1/4`, or such a fraction alone: halves to sixty-fourths, which come out even. */
export const fraction = /-?\d{1,4} +\d{1,2}\/(?:2|4|8|16|32|64)(?![\w./-])|-?\d{1,2}\/(?:2|4|8|16|32|64)(?![\w./-])/;

const parts = /^(-?)(?:(\d+) +)?(\d+)\/(\d+)$/;

/** The same in digits and a point, `3.25`; any other number as it is. */
export function inDigits(image: string): string {
  const [, sign = '', whole = '0', over = '', under = ''] = parts.exec(image) ?? [];
  return under === '' ? image : `${sign}${Number(whole) + Number(over) / Number(under)}`;
}
