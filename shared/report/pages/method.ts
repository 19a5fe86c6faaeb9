import { spokenRows } from '../../language/rows.ts';
import { escaped } from '../../drawing/svg.ts';
import { sources, strengthWords, type Source, type SourceName, type Strength } from '../../reference/sources.ts';

/** The method in ten lines, each with what it rests on where that is a paper. */
interface MethodLine {
  readonly says: string;
  readonly rests: readonly (readonly [SourceName, Strength])[];
}

const lines: readonly MethodLine[] = spokenRows(
  [
    { says: 'Landmarks are placed by hand on each film. Nothing is found by the program itself.', rests: [] },
    {
      says: 'A film is put to scale by a marker, a stated number, its own file, or bones known from other films of the animal.',
      rests: [],
    },
    {
      says: 'Everything is measured in the foot’s own frame: along the plane that the wall bears on, and square to it.',
      rests: [],
    },
    {
      says: 'Each value has one standard deviation, carried from the spread of the placings. It holds no error of the beam or the stance.',
      rests: [],
    },
    {
      says: 'A change is called clear beyond 1.96 of its standard deviations and beyond the least change that films can tell.',
      rests: [['collins', 'quoted']],
    },
    {
      says: 'A trend is the median of all slopes between two films, with a test of their order.',
      rests: [['trends', 'read']],
    },
    {
      says: 'What is usual comes from published values; beside each stands how sure its source is.',
      rests: [
        ['textbook', 'read'],
        ['mullard', 'read'],
      ],
    },
    {
      says: 'Rotation alone says little about the outcome; lameness and sinking weigh more.',
      rests: [
        ['hunt', 'read'],
        ['cripps', 'memory'],
      ],
    },
    {
      says: 'A cut is foretold by standing the foot on the new plane; the coffin joint takes up nearly all of the turn.',
      rests: [['crevier', 'read']],
    },
    {
      says: 'Where a foot does not tell how fast its wall grows, 6 to 10 mm a month are taken.',
      rests: [
        ['growthTextbook', 'read'],
        ['josseck', 'read'],
      ],
    },
  ],
  'says',
);

export function methodPart(): string {
  const item = ({ says, rests }: MethodLine): string => {
    const all = rests.map(([name, strength]) => cited(sources[name], strength));
    return `<li>${escaped(says)}${all.length > 0 ? ` <cite>${all.join('; ')}</cite>` : ''}</li>`;
  };
  return `<ol>${lines.map(item).join('')}</ol>`;
}

function cited({ cite, doi }: Source, strength: Strength): string {
  const words = `${escaped(cite)}${strengthWords[strength] === '' ? '' : `, ${escaped(strengthWords[strength])}`}`;
  return doi === undefined ? words : `<a href="https://doi.org/${escaped(doi)}">${words}</a>`;
}
