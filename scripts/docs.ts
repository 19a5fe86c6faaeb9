// Writes the pages in docs/ that follow from the tables: words, measures, codes, the tables of a package. With --check it only compares.
import type { Plane } from '../shared/geometry/planes.ts';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { whyNever } from '../shared/findings/engine/accepted.ts';
import { codes, findCode, pageOf } from '../shared/findings/catalogue.ts';
import type { CodeRow } from '../shared/findings/code-row.ts';
import { sayLimit, sentence } from '../shared/findings/wording/wording.ts';
import { handMeasures } from '../shared/measures/by-hand.ts';
import { measures } from '../shared/measures/registry.ts';
import { landmarks, views } from '../shared/notation/landmarks.ts';
import { sayRange } from '../shared/notation/in-range.ts';
import { formsRangeWords, rangeWords } from '../shared/notation/range-words.ts';
import { writeForm, type Argument, type Form } from '../shared/notation/signature.ts';
import { units } from '../shared/notation/units.ts';
import {
  blocks,
  formsIn,
  limitForms,
  placingDoc,
  placingForm,
  statements,
  tapeForm,
  type WordRow,
} from '../shared/notation/vocabulary.ts';
import { sayFigures } from '../shared/findings/limits/published-lines.ts';
import { bands } from '../shared/reference/bands.ts';
import { growthValues, usualGrowth } from '../shared/reference/growth.ts';
import { together } from '../shared/reference/told-together.ts';
import { citation, sources } from '../shared/reference/sources.ts';
import type { PublishedValue } from '../shared/reference/published-value.ts';
import { notRead } from '../shared/reference/not-read.ts';
import { values } from '../shared/reference/values.ts';
import type { SeriesTable } from '../shared/series/columns.ts';
import { tables } from '../shared/series/tables.ts';

const made = '<!-- Made by scripts/docs.ts from the tables in shared/. Change those, then run: npm run docs -->';

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string =>
    `| ${cells.map((cell) => cell.replace(/\|/g, '\\|').replace(/\n/g, ' ')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)].join('\n');
}

const takes = (row: WordRow, forms: readonly Form[] = row.takes): string =>
  forms.map((form) => `\`${form.length === 0 ? row.word : `${row.word} ${writeForm(form)}`}\``).join(' or ');

/** What a word is, with how far its numbers go. */
const told = (row: WordRow, forms: readonly Form[] = row.takes): string =>
  [row.doc, formsRangeWords(forms)].filter((words) => words !== '').join(' ');

/** The words that belong to one kind of block; the others are told once. */
const own = statements.filter((row) => row.in.length <= 2 || row.takesIn !== undefined);

function wordsPage(): string {
  return `# Every word of the notation

${made}

Blocks begin with a header and end where a word that belongs further out appears. How the notation works: [notation.md](notation.md).

## Blocks

${table(
  ['written', 'stands in', 'is'],
  blocks.map((row) => [
    takes(row),
    row.in.map((place) => (place === 'file' ? 'the file' : place)).join(', '),
    told(row),
  ]),
)}

## Statements

${blocks
  .filter(({ word }) => own.some((row) => row.in.includes(word)) && word !== 'photo' && word !== 'trim')
  .map(
    ({ word }) =>
      `### In ${word === 'film' ? 'film and photo' : word === 'plan' ? 'plan and trim' : word}\n\n${table(
        ['written', 'is', 'for example'],
        own
          .filter((row) => row.in.includes(word))
          .map((row) => [takes(row, formsIn(row, word)), told(row, formsIn(row, word)), `\`${row.example}\``]),
      )}`,
  )
  .join('\n\n')}

### In most blocks

${table(
  ['written', 'stands in', 'is', 'for example'],
  statements
    .filter((row) => !own.includes(row))
    .map((row) => [takes(row), row.in.join(', '), told(row), `\`${row.example}\``]),
)}

### Landmarks, in film, photo and read

\`NAME ${writeForm(placingForm)}\`. Coordinates go from ${rangeWords(placingForm[1] as Argument)}, the spread from ${rangeWords(placingForm[2] as Argument)}.

\`followed\`: ${placingDoc.followed} [More](notation.md#followed-from-the-film-before).

${views
  .map(
    (view) =>
      `#### ${sentence(view)} view\n\n${table(
        ['name', 'where'],
        landmarks.filter((one) => one.view === view).map(({ word, doc }) => [`\`${word}\``, doc]),
      )}`,
  )
  .join('\n\n')}

### In tape

\`MEASURE QUANTITY\`, for: ${measures
    .filter(({ byHand }) => byHand)
    .map(({ name }) => `\`${name}\``)
    .join(
      ', ',
    )}; and for what only a hand takes: ${handMeasures.map(({ name }) => `\`${name}\``).join(', ')}. ${formsRangeWords([tapeForm])} Within
that each measure has its own range, in [measures.md](measures.md).

### In limits

\`MEASURE >=|<= QUANTITY [because TEXT]\`, for any measure of [measures.md](measures.md). ${formsRangeWords(limitForms)}

## Units

${table(
  ['unit', 'of', 'is'],
  units.map(({ word, dimension, doc }) => [`\`${word}\``, dimension, doc]),
)}
`;
}

const ownSetExample = {
  'ungula-reference': 1,
  name: 'Our clinic',
  source: { cite: 'our own films, 2019 to 2025' },
  bands: [
    { measure: 'palmar-angle', feet: 'fore', animals: 'ponies', low: 3, high: 8, says: 'Film it again in four weeks.' },
    { measure: 'sole-depth.tip', low: 12 },
    { measure: 'sole-depth.tip', low: 8, severity: 'error' },
  ],
  values: [
    {
      measure: 'palmar-angle',
      population: { species: 'pony', feet: 'fore', condition: 'sound', words: 'sound riding ponies of our clinic' },
      n: 34,
      counted: 'animals',
      mean: 5.1,
      sd: 1.6,
    },
  ],
};

const unitOf = (measure: string) => measures.find(({ name }) => name === measure)?.unit ?? 'mm';

function countOf({ n, counted }: PublishedValue): string {
  return n === null ? '' : `${n} ${counted ?? ''}`.trim();
}

const planeWords: Readonly<Record<Plane, string>> = {
  bearing: 'bearing plane',
  either: 'bearing plane, else ground',
  ground: 'ground',
  none: '',
};

function measuresPage(): string {
  const families = [...new Set(measures.map(({ family }) => family))];
  return `# Every measure

${made}

Angles in degrees, lengths in millimetres. X runs along a plane to the toe from below \`p3.tip\`, Y up from it. slope(A, B) is the
angle at that plane, opening towards the heel, of the line that leans back from A to B. A measure whose landmarks are not all placed is absent.
Which plane it is stands under 'to': the ground that the foot stands on, or the bearing plane, which is what is trimmed. A bare foot stands
on its bearing plane, so that both are one; of a shod foot the film shows two (\`ground\` and \`bearing\`), and a measure to one that is
not placed is absent. The depth of the sole is told without \`bearing\` too, square to the ground: a wedge changes it by its cosine, 1 % at 8°.
Where nothing stands under 'to', no plane is in the measure.
How the frame, the spread and the trim model are defined: [model.md](model.md).

${families
  .map(
    (family) =>
      `## ${sentence(family)}\n\n${table(
        ['name', 'unit', 'is', 'to', 'computed as', 'landmarks', 'by hand'],
        measures
          .filter((one) => one.family === family)
          .map((one) => [
            `\`${one.name}\`${one.alias ? `, hind \`${one.alias}\`` : ''}`,
            one.unit,
            `**${sentence(one.words)}.** ${one.doc}`,
            planeWords[one.plane],
            one.formula,
            one.needs.map((name) => `\`${name}\``).join(' '),
            one.byHand ? sayRange(one.byHand) : '',
          ]),
      )}`,
  )
  .join('\n\n')}

## By hand alone

Written under \`tape\`; no picture gives them, and no limit holds for them.

${table(
  ['name', 'unit', 'is'],
  handMeasures.map(({ name, unit, words, doc }) => [`\`${name}\``, unit, `**${sentence(words)}.** ${doc}`]),
)}

## What is usual, and from where

Where a value passes one of these, a finding says so with the source. A case's own \`limits\` stand in their place, and so do sets of one's own (below).
Limits marked 'scales' shrink in proportion to withers height below 148 cm (Thieme 2015: lengths of pony feet follow height, angles do not; that it is taken as
proportional, and from 148 cm, is a judgement of ours, and probably too strict, as small feet are relatively larger). Low limits of the sole never shrink. Limits
marked 'light only' hold for animals of up to 165 cm and 650 kg. Under 24 months, by \`foaled\` and the day of the film, no limit marked
'scales' holds and no lowest palmar angle: all were found on grown animals, and a hint says so. The sole, the shares and the other angles are judged as in grown
ones. Without a birth date an animal counts as grown. A limit that was scaled is never an error: the error stays where it is drawn for full height, and its scaled
twin is a warning.

A thin sole is graver than the table says where more speaks for it: under 12 mm it is a warning where it has clearly become thinner; under 7 mm an error where it
has, with Obel 2 or more, or where no lameness is written at all. \`toe-heel-difference\` has no limit: the 5° that are taught lie beyond most feet.

${table(
  ['measure', 'feet', 'animals', 'beyond', 'is told as', 'how', 'source', 'others'],
  bands.flatMap((band) =>
    band.thresholds.map((cut) => [
      `\`${band.measure}\``,
      band.feet,
      band.animals,
      `${cut.side === 'low' ? 'below' : 'above'} ${sayLimit(cut.at, unitOf(band.measure))}`,
      cut.severity,
      [band.scales && 'scales', band.lightOnly && 'light only'].filter(Boolean).join(', '),
      citation(cut.source, cut.strength),
      (cut.against ?? [])
        .map(({ at, source, strength }) => `${sayLimit(at, unitOf(band.measure))} (${citation(source, strength)})`)
        .join(', '),
    ]),
  ),
)}

'From memory' and 'as quoted by others' mean what they say: the figure was not read in the paper itself. 'Common practice, no source' is a rule of the trade.

## How fast the wall grows

Where the films and tapes of a foot do not tell its own growth, ${usualGrowth.slow.toFixed(2)} to ${usualGrowth.fast} mm a day are taken, ${usualGrowth.middle} in the middle; of a trim that is
done the fastest counts for it. In mm a day:

${table(
  ['of', 'how many', 'mm a day', 'printed', 'source'],
  growthValues.map(({ words, n, mmPerDay, printed, source, strength }) => [
    words,
    n === null ? '' : String(n),
    typeof mmPerDay === 'number' ? String(mmPerDay) : mmPerDay.join(' to '),
    printed,
    citation(source, strength),
  ]),
)}

## A set of one's own

A clinic, a practice or a yard may keep limits and values of its own in a JSON file, checked as it is written where its name ends in
\`.hoof-reference.json\`. The setting \`ungula.reference.files\` names such files; the command line takes them with \`--reference FILE\`.

\`\`\`json
${JSON.stringify(ownSetExample, null, 2)}
\`\`\`

(The figures are invented.) Figures are in the unit of the measure: degrees, millimetres or per cent. A set's limits stand before the published ones on their
side, and where the two differ both are told. A published limit that is told as an error stays, unless the set has one of its own that is. They are not scaled by
height: write rows for \`ponies\`. Of several files the first that has a limit counts. A case's own \`limits\` stand before them all.

## Published values

What others have measured, in the figures that they printed; centimetres and plain ratios are turned into millimetres and per cent. These only inform: hover, the preview and the report show those that fit the foot and the animal; a
finding comes from the table above. Mules and hinnies are shown a horse's values, and ponies too as long as none of their own are known, with a word that says
so; donkeys are shown a donkey's only.

${table(
  ['measure', 'animal', 'of', 'feet', 'how many', 'value', 'to know', 'source'],
  measures.flatMap(({ name, unit }) =>
    values
      .filter(({ measure }) => measure === name)
      .map((row) => [
        `\`${name}\``,
        row.population.species,
        row.population.words,
        row.population.feet,
        countOf(row),
        sayFigures(row, unit),
        row.note ?? '',
        citation(row.source, row.strength),
      ]),
  ),
)}

'About' marks a figure of which what is at hand does not say whether it is a mean or a median.

## Looked for, not read

Papers that may hold what is missing above, and could not be read as far as that. Nothing is taken from them but what is said here. No founder distance, no sole and no
distance from the hairline of sound donkeys, mules or ponies in millimetres could be read anywhere: that is why donkeys have no limit for them, why a donkey's
sole is held against horses' figures (and says so), and why lengths of ponies are scaled in plain proportion. Of every abstract that is cited below the full text is wanting too.

${table(
  ['what', 'about whom, and what it may hold', 'read so far'],
  notRead.map(({ cite, doi, holds, read }) => [doi ? `${cite}, doi ${doi}` : cite, holds, read]),
)}

## Sources

${Object.values<{ cite: string; doi?: string }>(sources)
  .map(({ cite, doi }) => `- ${cite}${doi ? `, doi ${doi}` : ''}`)
  .join('\n')}
`;
}

function codesPage(): string {
  const groups = [...new Set(codes.map(({ code }) => code.split('/')[0] ?? ''))];
  return `# Every code

${made}

What \`ungula check\` and the editor tell. A code is stable once released.

${groups
  .map(
    (group) =>
      `## ${sentence(group)}\n\n${table(
        ['code', 'severity', 'title', 'about', 'may be accepted'],
        codes
          .filter(({ code }) => code.startsWith(`${group}/`))
          .map(({ code, severity, title, about }) => [
            `[\`${code}\`](codes/${pageOf(code)})`,
            severity,
            title,
            about,
            whyNever(code) === undefined ? 'yes' : 'no',
          ]),
      )}`,
  )
  .join('\n\n')}
`;
}

/** The page on which a rule is drawn, as a link. */
function drawnIn(code: string): string {
  if (/^(?:scale\/(?:bone-length|other-foot)|course\/tip-shorter|alignment\/.*|range\/wall-to-bone)$/.test(code))
    return ' · [with a drawing](../rules.md)';
  return code.startsWith('course/') ? ' · [sinking and rotating, with drawings](../sinking.md)' : '';
}

/** How grave a code is, said to a person. */
const graveness = {
  error: 'Error: act on it, or write down why not.',
  warning: 'Warning: look at it.',
  info: 'Information.',
  hint: 'Hint.',
} as const;

function codePage(row: CodeRow): string {
  const { code, severity, title, about } = row;
  const measure = /^range\/(.+)$/.exec(code)?.[1];
  const told = together.find((one) => one.code === code)?.measures ?? [measure];
  const cuts = bands
    .filter((band) => told.includes(band.measure))
    .flatMap((band) => band.thresholds.map((cut) => ({ band, cut })));
  const limits =
    cuts.length === 0
      ? ''
      : `\n## Limits\n\n${table(
          ['measure', 'feet', 'animals', 'beyond', 'told as', 'source', 'says'],
          cuts.map(({ band, cut }) => [
            `\`${band.measure}\``,
            band.feet,
            band.animals,
            `${cut.side === 'low' ? 'below' : 'above'} ${sayLimit(cut.at, unitOf(band.measure))}`,
            cut.severity,
            citation(cut.source, cut.strength),
            cut.says ?? '',
          ]),
        )}\n`;
  return `# ${title}

${made}

\`${code}\`

${graveness[severity]}

${about}
${limits}
${acceptingPart(code)}
## Who decides

${
  /^(?:trim|course|visit|range|alignment)\//.test(code)
    ? 'The program computes from what was placed on a picture. Whether and how much is cut is decided at the horse, by vet and practitioner together; diagnosis and pain belong to the vet. Where schools disagree, for instance on heels up or down in the acute phase, this page takes no side. A limit of the case (`limits`) may be tighter freely; a looser one takes a reason with `because`, and stays visible.'
    : /^(?:file|case)\//.test(code)
      ? 'Whoever keeps the files.'
      : 'Whoever writes the file: the line that is told means nothing, or something else, until it is mended. Every other line keeps its meaning.'
}

[All codes](../codes.md) · [how the numbers are made](../model.md)${drawnIn(code)}
`;
}

function acceptingPart(code: string): string {
  const never = whyNever(code);
  return never === undefined
    ? `## Living with it

Where it has been looked at and stays as it is, say so in the block that it is told in, with the reason: \`accept ${code} because "…"\`. It is then
shown as a note with that reason. The setting \`ungula.severity\` and \`ungula check --severity\` change how gravely it is told everywhere.
`
    : `## Not to be accepted

${never}${findCode(code)?.never === undefined ? '' : ' It can be neither accepted nor switched off.'}
`;
}

function exportTablesPage(): string {
  const rows = Object.entries<SeriesTable>(tables);
  return `# The tables of a data package

${made}

What leaves, and how to ask for more: [export.md](export.md). Each table has \`case\` as its first column. **Bold** columns are never empty.

${rows
  .map(
    ([name, { title, description, primaryKey, foreignKeys, columns, asked }]) => `## ${title}: \`${name}\`

${description}${asked ? ` Only with ${asked.map((extra) => `\`--with ${extra}\``).join(' or ')}.` : ''}

Key: ${primaryKey.map((key) => `\`${key}\``).join(', ')}.${foreignKeys
      .map(({ fields, table: there }) => ` ${fields.map((field) => `\`${field}\``).join(', ')} point to \`${there}\`.`)
      .join('')}

${table(
  ['column', 'type', 'unit', 'is'],
  columns.map((column) => [
    column.required ? `**\`${column.name}\`**` : `\`${column.name}\``,
    column.type,
    column.unit ?? '',
    `${column.description}${column.enum && column.enum.length <= 12 ? ` One of: ${column.enum.map((word) => `\`${word}\``).join(', ')}.` : ''}${column.asked ? ` Only with ${column.asked.map((extra) => `\`--with ${extra}\``).join(' or ')}${column.asked.includes('dates') && column.type === 'date' ? ' or `--shift-dates`' : ''}.` : ''}`,
  ]),
)}`,
  )
  .join('\n\n')}
`;
}

const pages: Readonly<Record<string, () => string>> = {
  ...Object.fromEntries(codes.map((row) => [`codes/${pageOf(row.code)}`, () => codePage(row)])),
  'words.md': wordsPage,
  'measures.md': measuresPage,
  'codes.md': codesPage,
  'export-tables.md': exportTablesPage,
};
const checking = process.argv.includes('--check');
let stale = 0;
for (const [name, write] of Object.entries(pages)) {
  const path = join(import.meta.dirname, '..', 'docs', name);
  const wanted = write();
  let now = '';
  try {
    now = readFileSync(path, 'utf8');
  } catch {
    // A page that is not there yet is one that differs.
  }
  if (now === wanted) continue;
  stale += 1;
  if (checking) console.log(`docs/${name} differs from the tables: run npm run docs`);
  else {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, wanted);
    console.log(`docs/${name} written`);
  }
}
process.exitCode = checking && stale > 0 ? 1 : 0;
