import { filmText } from '../unit/plain-foot.ts';
import { usualCase } from '../bench/usual-case.ts';

/** A case file of about `size` UTF-16 units that grows in one way only. */
export type Shape = (size: number) => string;

const head = 'hoof 1\n\ncase "Juniper"\n  animal horse gelding\n  height 148 cm\n';

/** `before`, then parts one after the other until the text is as large as asked for, then `after`. */
function repeated(size: number, part: (number: number) => string, before = '', after = ''): string {
  const parts = [before];
  let length = before.length + after.length;
  for (let number = 0; length < size; number++) {
    const next = part(number);
    parts.push(next);
    length += next.length;
  }
  parts.push(after);
  return parts.join('');
}

/** Some place that differs from part to part, without two alike near each other. */
const near = (place: number, number: number): number => place + ((number * 37) % 41) / 10;

/** The least that shows a palmar angle. */
function smallFilm(number: number, header = 'film LF lateral "x.png"'): string {
  return `  ${header}
    scale 0.1 mm/px
    ground 0, 1000 .. 2000, 1000
    p3.tip @ 2000, ${near(840, number)}
    p3.wing @ 1200, ${near(770, number)}
    heel.ground @ 900, 1000
    toe.ground @ 2280, 1000
    sole.tip @ 2000, ${near(985, number)}
    sole.heel @ 960, ${near(960, number)}
    wall.top @ 1820, 400
`;
}

/** Every second one takes its scale from the bones on the others. */
function boneFilm(number: number): string {
  const film = `${smallFilm(number)}    p3.extensor @ 1600, 430\n`;
  return number % 2 === 0 ? film : film.replace('scale 0.1 mm/px', 'scale bone');
}

function day(number: number): string {
  return new Date(Date.UTC(1990, 0, 1 + number)).toISOString().slice(0, 10);
}

const visit = 'visit 2026-03-04 "one visit"\n';
const wholeFilm = `${filmText()}\n`;

/** By name, in the order in which they are run. */
export const shapes: Readonly<Record<string, Shape>> = {
  'usual visits': (size) => usualCase(Math.round(size / 1180)),
  'a small film a visit': (size) => repeated(size, (number) => `visit ${day(number)}\n${smallFilm(number)}`, head),
  'scale bone on every second film': (size) =>
    repeated(size, (number) => `visit ${day(number)}\n${boneFilm(number)}`, head),
  'films in one visit': (size) => repeated(size, smallFilm, head + visit),
  'readings of one film': (size) =>
    repeated(
      size,
      (number) =>
        `    read "reader ${number}"\n      p3.tip @ 2000, ${near(840, number)}\n      p3.wing @ 1200, ${near(770, number)}\n`,
      `${head}${visit}  film LF lateral "x.png"\n    scale 0.1 mm/px\n    ground 0, 1000 .. 2000, 1000\n`,
    ),
  'placings of one landmark': (size) =>
    repeated(size, (number) => `    p3.tip @ 2000, ${near(840, number)}\n`, `${head}${visit}${wholeFilm}`),
  plans: (size) =>
    repeated(
      size,
      (number) => `  plan LF\n    heel down ${1 + (number % 5)} mm\n    toe back 1 mm\n`,
      `${head}${visit}${wholeFilm}`,
    ),
  trims: (size) =>
    repeated(
      size,
      (number) => `visit ${day(number)}\n  trim LF\n    heel down ${1 + (number % 5)} mm\n`,
      `${head}visit 1989-12-31\n${wholeFilm}`,
    ),
  tapes: (size) =>
    repeated(
      size,
      (number) => `  tape LF\n    toe-length ${80 + (number % 9)} mm\n    heel-height 40 mm\n`,
      `${head}${visit}${wholeFilm}`,
    ),
  limits: (size) =>
    repeated(
      size,
      (number) => `  sole-depth.tip >= ${10 + (number % 50) / 10} mm because "reason ${number}"\n`,
      `${head}limits\n`,
      `${visit}${wholeFilm}`,
    ),
  'limits blocks': (size) =>
    repeated(
      size,
      (number) => `limits\n  sole-depth.tip >= ${12 + (number % 50) / 10} mm\n`,
      `${head}${visit}${wholeFilm}`,
    ),
  'limits and films': (size) => {
    const limits = repeated(
      size / 5,
      (number) => `  sole-depth.tip >= ${10 + (number % 50) / 10} mm because "reason ${number}"\n`,
      `${head}limits\n  p3-back >= 20 mm\n`,
    );
    return repeated(size, (number) => `visit ${day(number)}\n${smallFilm(number)}`, limits);
  },
  'films and tapes in one visit': (size) =>
    repeated(size, (number) => `${smallFilm(number)}  tape LF\n    toe-length ${80 + (number % 9)} mm\n`, head + visit),
  'readings with much to say': (size) =>
    repeated(
      size,
      (number) =>
        `    read "reader ${number}"\n      p3.tip @ ${near(9000, number)}, 840\n      p3.wing @ 1200, ${near(770, number)}\n      heel.ground @ 900, 700\n      toe.ground @ 2280, 1000\n`,
      `${head}${visit}  film LF lateral "x.png"\n    scale 0.1 mm/px\n    ground 0, 1000 .. 2000, 1000\n`,
    ),
  'plans that break limits': (size) =>
    repeated(
      size,
      (number) => `  plan LF\n    heel down ${30 + (number % 5)} mm\n    toe down 4 mm\n`,
      `${head}${visit}${wholeFilm}`,
    ),
  'remarks and statements': (size) => repeated(size, (number) => `  # remark ${number}\n  feed "hay"\n`, head + visit),
  'expected values': (size) =>
    repeated(size, (number) => `    expect palmar-angle ${number % 20} deg +- 1 deg\n`, `${head}${visit}${wholeFilm}`),
  acceptances: (size) =>
    repeated(
      size,
      (number) =>
        `  accept ${['range/palmar-angle', 'range/coronet-angle', 'visit/interval'][number % 3] ?? ''} because "reason ${number}"\n`,
      `${head}${visit}`,
      wholeFilm,
    ),
  'acceptances of unknown codes': (size) =>
    repeated(size, (number) => `  accept range/palmer-angel${number} because "reason"\n`, `${head}${visit}`, wholeFilm),
  'films with acceptances': (size) =>
    repeated(size, (number) => `${smallFilm(number)}    accept range/palmar-angle because "looked at"\n`, head + visit),
  'statements said again': (size) =>
    repeated(size, (number) => `  weight ${400 + (number % 99)} kg\n`, `${head}${visit}`),
  'warning signs': (size) => repeated(size, () => '  sign fever recumbent\n', `${head}${visit}`),
  'dates backwards': (size) => repeated(size, (number) => `visit ${day(12_000 - (number % 12_000))}\n`, head),
  'case blocks': (size) => repeated(size, (number) => `case "Animal ${number}"\n  height 148 cm\n`, head),
  'empty films and readings': (size) =>
    repeated(size, () => '  film LF lateral "x.png"\n    read "a"\n    read "b"\n', head + visit),
  'missing pictures': (size) =>
    repeated(size, (number) => `  film LF lateral "films/${number}.png"\n    scale dicom\n`, head + visit),
  'mistyped words': (size) =>
    repeated(size, (number) => `  ${['wieght', 'pulze', 'turnuot'][number % 3] ?? ''} 512 kg\n`, head + visit),
  'mistyped landmarks': (size) =>
    repeated(size, (number) => `    p3.tpi${number % 10} @ ${number}, 1\n`, `${head}${visit}${wholeFilm}`),
  'mistyped measures': (size) =>
    repeated(size, (number) => `  sole-depht.tip${number} >= 12 mm\n`, `${head}limits\n`, `${visit}${wholeFilm}`),
  'broken lines': (size) => repeated(size, (number) => `  "open ${number} = ,, .. §§ @\n`, head + visit),
  'lines of prose': (size) => repeated(size, (number) => `  | Walks out well, ${number}.\n`, head + visit),
  'one line of prose': (size) => `${head}${visit}  | ${repeated(size, () => 'Walks out well. ')}\n`,
  'one remark': (size) => `${head}${visit}  # ${repeated(size, () => 'a remark, ')}\n`,
  'lines of remarks': (size) => repeated(size, (number) => `# remark ${number}\n`, head + visit),
  'blank lines': (size) => repeated(size, () => '\n', head + visit),
  'blank lines first': (size) => repeated(size, () => '\n', '', head + visit),
  'blanks on one line': (size) => `${head}${visit}${repeated(size, () => '    ')}\n`,
  'one text': (size) => `${head}${visit}  feed "${repeated(size, () => 'hay ')}"\n`,
  'one text with escapes': (size) => `${head}${visit}  feed "${repeated(size, () => '\\" \\\\ ')}"\n`,
  'one open text': (size) => `${head}${visit}  feed "${repeated(size, () => 'hay ')}\n`,
  'one piece': (size) => `${head}${visit}  ${repeated(size, () => 'abcdefgh')}\n`,
  'one piece with points': (size) => `${head}${visit}  ${repeated(size, () => 'ab.cd-')}\n`,
  'one piece of other letters': (size) => `${head}${visit}  ${repeated(size, () => 'äöü°')}\n`,
  'one number': (size) => `${head}${visit}  weight ${repeated(size, () => '1234567890')} kg\n`,
  'one number with points': (size) => `${head}${visit}  weight ${repeated(size, () => '1.2,')} kg\n`,
  'one line of dashes': (size) => `${head}${visit}  ${repeated(size, () => '----')}\n`,
  'one line of words': (size) => `${head}${visit}  sign ${repeated(size, () => 'fever ')}\n`,
  'one line of feet': (size) => `${head}${visit}  pulse ${repeated(size, () => 'LF RF ')}raised\n`,
  'one line of numbers': (size) => `${head}${visit}  weight ${repeated(size, () => '12 kg ')}\n`,
  'one line of points': (size) => `${head}${visit}  ground ${repeated(size, () => '1, 2 .. ')}\n`,
  'one line of commas': (size) => `${head}${visit}  ground ${repeated(size, () => ',')}\n`,
  'one line of signs': (size) => `${head}${visit}  ground ${repeated(size, () => '@ = +- ')}\n`,
  'one code in pieces': (size) => `${head}  microchip ${repeated(size, () => '985 ')}\n${visit}`,
  'shortest lines': (size) => 'x\n'.repeat(Math.ceil(size / 2)),
  'shortest open texts': (size) => '"\n'.repeat(Math.ceil(size / 2)),
  'shortest visits': (size) => 'visit\n'.repeat(Math.ceil(size / 6)),
  'lines of a zero byte': (size) => '\0\n'.repeat(Math.ceil(size / 2)),
  'no line end': (size) => repeated(size, () => 'abcdefgh'),
  quotes: (size) => `${head}${visit}  feed ${repeated(size, () => '"')}\n`,
  'old line ends': (size) =>
    repeated(size, (number) => `  weight ${number % 500} kg\r`, (head + visit).replaceAll('\n', '\r')),
};
