import { readFileSync } from 'node:fs';
import { join } from 'node:path';

/** Cases that the pages to hand over are tried on; all animals, people and places are invented. */

const juniper = readFileSync(join(import.meta.dirname, '..', '..', 'examples', 'juniper.hoof'), 'utf8');

/** The film of 26 May of the example Juniper, for any foot, day and scale. */
export function filmOf(
  foot: string,
  date: string,
  { scale = true, picture = `${foot}-${date}.png`, reader = '' } = {},
): string {
  const from = juniper.indexOf('  film LF lateral "films/juniper-lf-2026-05-26.png"');
  const lines = juniper.slice(from, juniper.indexOf('\n\n', from)).split('\n');
  const own = lines
    .filter((line) => scale || !line.includes(' scale '))
    .map((line) =>
      line
        .replace('film LF', `film ${foot}`)
        .replace(/"films[^"]*"/, `"${picture}"`)
        .replace('2026-05-26', date),
    );
  if (reader === '') return own.join('\n');
  const first = own.findIndex((line) => line.includes(' @ '));
  return [...own.slice(0, first), `    read "${reader}"`, ...own.slice(first).map((line) => `  ${line}`)].join('\n');
}

const head = (name: string, more = ''): string =>
  `hoof 1\n\ncase "${name}"\n  animal horse mare\n  breed "cob"\n  foaled 2014\n  height 150 cm\n${more}\n`;

const visit = (date: string, ...parts: readonly string[]): string => `visit ${date}\n${parts.join('\n')}\n\n`;

const plan = (foot: string, ...lines: readonly string[]): string =>
  `  plan ${foot}\n    heel down 1.5 mm\n    leave toe sole\n${lines.map((line) => `    ${line}\n`).join('')}`;

/** A whole case with an open plan on one foot. */
export const planned = (...lines: readonly string[]): string =>
  head('Clover') +
  visit(
    '2026-05-27',
    '  obel 0',
    '  weight 478 kg',
    '  vet "agrees"',
    filmOf('LF', '2026-05-26'),
    plan('LF', ...lines),
    '  next 5 weeks',
  );

const arabic = 'ياسمين';
const long = 'walks out well on the soft and a little short on stones '.repeat(180).trim();

/** What the hostile and the poor case lacks, and what each page has to say of it. */
export const poorCases: Readonly<Record<string, string>> = {
  'no film': head('Clover') + visit('2026-05-27', '  obel 1', '  weight 478 kg'),
  'nothing at all': 'hoof 1\n',
  'no scale':
    head('Clover') + visit('2026-05-27', '  obel 0', filmOf('LF', '2026-05-26', { scale: false }), plan('LF')),
  'tape only':
    head('Clover') +
    visit('2026-04-27', '  tape LF\n    toe-length 90 mm\n    heel-height 40 mm') +
    visit('2026-05-27', '  tape LF\n    toe-length 86 mm\n    heel-height 34 mm'),
  'one visit': planned(),
  'forty visits':
    head('Clover') +
    Array.from({ length: 40 }, (_, index) => {
      const day = new Date(Date.UTC(2023, 4, 27 + 28 * index)).toISOString().slice(0, 10);
      return visit(
        day,
        '  obel 0',
        `  weight ${520 - index} kg`,
        '  feed "hay"',
        filmOf('LF', day),
        '  trim LF\n    heel down 0.5 mm',
      );
    }).join(''),
  'three feet':
    head('Clover') +
    visit(
      '2026-05-27',
      '  obel 0',
      '  vet "agrees"',
      ...['LF', 'RF', 'LH'].map((foot) => filmOf(foot, '2026-05-26')),
      ...['LF', 'RF', 'LH'].map((foot) => plan(foot)),
    ),
  'a name in Arabic':
    head(arabic) +
    visit('2026-05-27', `  obel 0`, `  vet "${arabic}"`, `  feed "${arabic}"`, filmOf('LF', '2026-05-26'), plan('LF')),
  'a text of 10,000 characters':
    head('Clover') +
    visit(
      '2026-05-27',
      '  obel 0',
      `  vet "${long}"`,
      `  feed "${long}"`,
      filmOf('LF', '2026-05-26'),
      plan('LF', `why "${long}"`),
    ),
  'a text without a blank':
    head('Clover') +
    visit('2026-05-27', '  obel 0', `  vet "${'x'.repeat(10_000)}"`, filmOf('LF', '2026-05-26'), plan('LF')),
  'markup in every text':
    head('<b>Clover</b>') +
    visit(
      '2026-05-27',
      '  obel 0',
      '  vet "<script>alert(1)</script>"',
      '  feed "<img src=x onerror=alert(1)> & \\"hay\\""',
      filmOf('LF', '2026-05-26'),
      plan('LF'),
    ),
};

/** What identifies people, places and the animal in the case below, none of which a page may show unasked. */
export const identifiers = [
  'Ada Quillfeather',
  'Tobias Reedmace',
  'Practice at the Ford',
  'Nettlebed Farm',
  '985000000000001',
  '826046031234567',
  '0555 010 2030',
  '+44 20 7946 0018',
  'ada@ford.example',
  'films/quillfeather-yard.png',
];

/** The number that the owner needs. */
export const vetsNumber = '0555 010 9999';

export const namedCase =
  head(
    'Clover',
    [
      '  microchip 985000000000001',
      '  ueln 826046031234567',
      `  vet "Ada Quillfeather, Practice at the Ford, ${vetsNumber}"`,
      '  farrier "Tobias Reedmace, Nettlebed Farm"',
    ].join('\n'),
  ) +
  visit(
    '2026-05-27',
    '  by "Tobias Reedmace"',
    '  farrier "Tobias Reedmace"',
    '  obel 0',
    '  owner "ring me at 0555 010 2030"',
    '  feed "hay from Nettlebed Farm, 7 kg"',
    '  vet "Ada Quillfeather agrees; she can be had at ada@ford.example or +44 20 7946 0018"',
    filmOf('LF', '2026-05-26', { picture: 'films/quillfeather-yard.png', reader: 'Tobias Reedmace' }),
    plan('LF', 'why "as Ada Quillfeather said"', 'bevel toe 8 mm "after Tobias Reedmace"'),
    '  next 5 weeks',
  );

/** Whatever is asked of the vet first, and so bars the line of a plan. */
export const alarmedCase =
  head('Clover') +
  visit('2026-05-27', '  obel 0', '  sign fever', '  vet "agrees"', filmOf('LF', '2026-05-26'), plan('LF'));

export const brokenPlan =
  head('Clover') +
  visit('2026-05-27', '  obel 0', '  vet "agrees"', filmOf('LF', '2026-05-26'), plan('LF').replace('1.5 mm', '14 mm'));

export const trimmedSince =
  head('Clover') +
  visit(
    '2026-05-27',
    '  obel 0',
    '  vet "agrees"',
    filmOf('LF', '2026-05-26'),
    plan('LF'),
    '  trim LF\n    heel down 1.5 mm',
  );
