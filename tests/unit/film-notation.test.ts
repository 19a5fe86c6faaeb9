import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import { guessed, newFilms, type NewFilms, type NewPicture } from '../../shared/edits/film-notation.ts';

const today = '2026-11-25';
const lying = (path: string): NewPicture => ({ name: path.slice(path.lastIndexOf('/') + 1), path });
const elsewhere = (name: string): NewPicture => ({ name, path: null });

function put(text: string, offset: number, pictures: readonly NewPicture[], taken: readonly string[] = []): NewFilms {
  const { tree, study } = inspect(text);
  return newFilms(tree, study.record, offset, pictures, { today, caseName: 'juniper', taken });
}

/** The text after it, each choice left at its first. */
function after(text: string, { start, end, snippet }: NewFilms): string {
  const plain = snippet
    .replace(/\$\{\d+\|([^,|]*)[^}]*\}/g, '$1')
    .replace(/(^|[^\\])\$0/, '$1')
    .replace(/\\([\\$}])/g, '$1');
  return text.slice(0, start) + plain + text.slice(end);
}

const withFilms = `hoof 1

case "Juniper"
  animal horse mare

visit 2026-03-04 "first"
  weight     512 kg

  film LF lateral "a.png"
    scale   0.1 mm/px
    # p3.wing.other  @ only where it shows

  plan LF
    heel  down 5 mm

# of the next visit

visit 2026-04-01
  weight     500 kg
`;
const at = (words: string): number => withFilms.indexOf(words);

describe('a picture becomes a film', () => {
  it('behind the films of the visit in which it was put down, remarks and all', () => {
    const made = put(withFilms, at('heel  down'), [lying('films/b-rh-solar.png')]);
    expect(after(withFilms, made)).toBe(
      withFilms.replace('\n  plan LF', '\n  film RH solar "films/b-rh-solar.png"\n\n  plan LF'),
    );
    expect(made.copies).toEqual([null]);
  });

  it('at the end of a visit without films, before what belongs to the next', () => {
    const text = withFilms.replace(/ {2}film[\s\S]*shows\n\n/, '');
    expect(after(text, put(text, text.indexOf('512'), [lying('b.png')]))).toBe(
      text.replace('5 mm\n', '5 mm\n\n  film LF lateral "b.png"\n'),
    );
  });

  it('right below the header of a visit that says nothing yet', () => {
    const text = 'hoof 1\n\nvisit 2026-04-01\n';
    expect(after(text, put(text, text.length, [lying('b.png')]))).toBe(`${text}  film LF lateral "b.png"\n`);
  });

  it('in a file whose last line has no end, and with the ends of line that the file has', () => {
    const text = withFilms.trimEnd().replaceAll('\n', '\r\n');
    expect(after(text, put(text, text.length, [lying('b.png')]))).toBe(`${text}\r\n\r\n  film LF lateral "b.png"\r\n`);
  });

  it('outside any visit in that of today, which is made where there is none', () => {
    const made = after(withFilms, put(withFilms, at('animal'), [lying('b.png')]));
    expect(made).toBe(`${withFilms}\nvisit 2026-11-25\n  film LF lateral "b.png"\n`);
    expect(after(made, put(made, at('animal'), [lying('c.png')]))).toBe(`${made}\n  film LF lateral "c.png"\n`);
  });

  it.each(['', '\n', '  \n\n'])('in an empty file %j with the first lines that a file needs', (text) => {
    const made = after(text, put(text, 0, [lying('b.png')]));
    expect(made).toBe(`hoof 1\n\nvisit 2026-11-25\n  film LF lateral "b.png"\n${text}`);
  });

  it('several at once are blocks one below the other, with choices of their own', () => {
    const made = put(withFilms, at('500'), [lying('b.png'), lying('c-lh.png')]);
    expect(made.snippet.match(/\$\{\d\|/g)).toEqual(['${1|', '${2|', '${3|', '${4|']);
    expect(after(withFilms, made)).toBe(`${withFilms}\n  film LF lateral "b.png"\n\n  film LH lateral "c-lh.png"\n`);
  });

  it('whose name holds what snippets and the notation read otherwise', () => {
    const odd = 'films/a $1 } "b".png';
    const made = after(withFilms, put(withFilms, at('500'), [lying(odd)]));
    expect(inspect(made).study.record.visits[1]?.is.films.map(({ path }) => path.text)).toEqual([odd]);
  });
});

describe('a picture from elsewhere is copied', () => {
  const copies = (pictures: NewPicture[], taken: string[] = [], where = 'heel  down') =>
    put(withFilms, at(where), pictures, taken).copies;

  it('under the name of the case, the foot where it is known, and the day of the visit', () => {
    expect(copies([elsewhere('IMG 0012 LF.JPG')])).toEqual(['films/juniper-lf-2026-03-04.jpg']);
    expect(copies([elsewhere('.png')], [], '500')).toEqual(['films/juniper-2026-04-01.png']);
    expect(copies([elsewhere('x.png')], [], 'animal')).toEqual([`films/juniper-${today}.png`]);
  });

  it('never over one that is there, nor over its neighbour', () => {
    expect(
      copies([elsewhere('a-lf.png'), elsewhere('b-lf.png'), lying('c.png')], ['Juniper-LF-2026-03-04.PNG']),
    ).toEqual(['films/juniper-lf-2026-03-04-2.png', 'films/juniper-lf-2026-03-04-3.png', null]);
  });

  it('and its film names the copy', () => {
    const made = put(withFilms, at('heel  down'), [elsewhere('rf front.png')]);
    expect(after(withFilms, made)).toContain('  film RF front "films/juniper-rf-2026-03-04.png"\n');
  });
});

describe('what a name says', () => {
  it.each([
    ['juniper-lf-2026-03-04.png', 'LF', null],
    ['juniper_RH_lateral.dcm', 'RH', 'lateral'],
    ['left front lateral.png', 'LF', 'lateral'],
    ['left front.png', 'LF', null],
    ['Right Hind dorsopalmar 2.png', 'RH', 'front'],
    ['solar view lh.png', 'LH', 'solar'],
    ['alfalfa.png', null, null],
    ['lateral.png', null, 'lateral'],
    ['', null, null],
  ])('%s', (name, foot, view) => {
    expect(guessed(name)).toEqual({ foot, view });
  });
});

describe('wherever a picture is put down in an example', () => {
  const folder = join(import.meta.dirname, '..', '..', 'examples');
  const files = readdirSync(folder).filter((name) => name.endsWith('.hoof') && name !== 'mistakes.hoof');

  it.each(files)('%s stays laid out, and gains one film in that visit', (name) => {
    const text = readFileSync(join(folder, name), 'utf8');
    expect(format(text)).toBe(text);
    const before = inspect(text).study.record.visits.map(({ is }) => is.films.length);
    const starts = inspect(text).study.record.visits.map(({ start }) => start);
    expect(starts.length).toBeGreaterThan(0);
    for (let offset = 0; offset <= text.length; offset += 97) {
      const made = after(text, put(text, offset, [lying('films/new.png')]));
      expect(format(made)).toBe(made);
      const films = inspect(made).study.record.visits.map(({ is }) => is.films.length);
      const here = starts.findLastIndex((start) => start <= offset);
      const wanted = here < 0 ? [...before, 1] : before.map((count, index) => count + (index === here ? 1 : 0));
      expect([offset, films]).toEqual([offset, wanted]);
    }
  });

  it('the film stands last among those of its visit, whatever was written', () => {
    const made = inspect(after(withFilms, put(withFilms, at('512'), [lying('films/new.png')])));
    expect(made.study.record.visits[0]?.is.films.map(({ path }) => path.text)).toEqual(['a.png', 'films/new.png']);
  });
});
