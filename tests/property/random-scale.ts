import { Dice, round } from './dice.ts';
import { inMillimetres, type LengthUnit, type Point, type Scale } from './oracle/lateral.ts';

/** A marker somewhere on the picture, or a number, so that a pixel is `mmPerPx` but for rounding. */
export function randomScale(dice: Dice, form: Scale['form'], mmPerPx: number): Scale {
  if (form === 'stated') return { form, mmPerPx: round(mmPerPx, 5) };
  const unit = dice.pick<LengthUnit>(['mm', 'cm', 'in']);
  const length = round(dice.between(60, 150) / inMillimetres(1, unit), unit === 'mm' ? 0 : 2);
  const pixels = inMillimetres(length, unit) / mmPerPx;
  const direction = dice.between(0, 2 * Math.PI);
  const a: Point = {
    x: round(pixels + dice.between(10, 900), 2),
    y: round(pixels + dice.between(10, 900), 2),
  };
  const b: Point = {
    x: round(a.x + pixels * Math.cos(direction), 2),
    y: round(a.y + pixels * Math.sin(direction), 2),
  };
  return { form, length, unit, ends: { a, b } };
}
