import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { inspect } from '../../shared/findings/inspect.ts';
import { format } from '../../shared/notation/format.ts';
import type { SaidOfFilm } from '../../shared/picture/dicom-said.ts';
import { snippetFromFile } from '../../shared/edits/lines-from-file.ts';
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
    .replace(/\$\{\d+:([^}]*)\}/g, '$1')
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

describe('what the picture’s own file says is proposed', () => {
  const nothing: SaidOfFilm = { taken: null, scale: false, side: null, limb: null, view: null };
  const dropped = (said: Partial<SaidOfFilm>, name = 'b.dcm', where = '500', text = withFilms) =>
    put(text, text.indexOf(where), [{ ...lying(name), said: { ...nothing, ...said } }]);

  it('each as a choice or a line of its own, which goes as a whole when it is deleted', () => {
    const made = dropped({ taken: '2026-03-30', scale: true, side: 'right', limb: 'hind', view: 'front' });
    expect(made.snippet).toBe(
      '\n  film ${1|RH,LF,RF,LH|} ${2|front,lateral,solar|} "b.dcm"${3:\n    taken   2026-03-30}${4:\n    scale   dicom}$0\n',
    );
    const whole = after(withFilms, made);
    expect(format(whole.replace('# of the next visit\n\n', ''))).toContain(whole.slice(withFilms.length));
    expect(whole).toBe(`${withFilms}\n  film RH front "b.dcm"\n    taken   2026-03-30\n    scale   dicom\n`);
    const film = inspect(whole).study.record.visits[1]?.is.films[0];
    expect([film?.foot, film?.view, film?.taken, film?.scale?.kind]).toEqual(['RH', 'front', '2026-03-30', 'dicom']);
    for (const [left, gone] of [
      ['    scale   dicom\n', '${3:\n    taken   2026-03-30}'],
      ['    taken   2026-03-30\n', '${4:\n    scale   dicom}'],
    ] as const)
      expect(after(withFilms, { ...made, snippet: made.snippet.replace(gone, '') })).toBe(
        `${withFilms}\n  film RH front "b.dcm"\n${left}`,
      );
  });

  it('a side without a limb brings its two feet first, a limb without a side its two', () => {
    expect(dropped({ side: 'right' }).snippet).toContain('${1|RF,RH,LF,LH|}');
    expect(dropped({ limb: 'hind' }).snippet).toContain('${1|LH,RH,LF,RF|}');
    expect(dropped({}).snippet).toBe(put(withFilms, at('500'), [lying('b.dcm')]).snippet);
  });

  it('what a person called the file comes before what a machine was set to', () => {
    expect(dropped({ side: 'right', limb: 'fore', view: 'front' }, 'juniper-lf-lateral.dcm').snippet).toContain(
      '${1|LF,RF,LH,RH|} ${2|lateral,front,solar|}',
    );
  });

  it('no day that is the visit’s own, to come, none at all, or before there were films', () => {
    for (const taken of ['2026-04-01', '2026-11-26', '2026-02-30', '1899-12-31', '2026-03', 'SMITH'])
      expect(dropped({ taken }).snippet).not.toContain('taken');
    expect(dropped({ taken: today }).snippet).toContain('taken   2026-11-25');
    // Where a visit of today is made for it, the day is that of today.
    expect(dropped({ taken: today }, 'b.dcm', 'animal').snippet).not.toContain('taken');
  });

  it('of several pictures one after the other, and with the ends of line that the file has', () => {
    const text = withFilms.replaceAll('\n', '\r\n');
    const said = { ...nothing, scale: true };
    const made = put(text, text.indexOf('500'), [
      { ...lying('b.dcm'), said },
      { ...lying('c.dcm'), said },
    ]);
    expect(made.snippet.match(/\$\{\d/g)).toEqual(['${1', '${2', '${3', '${4', '${5', '${6']);
    expect(after(text, made)).toBe(
      `${text}\r\n  film LF lateral "b.dcm"\r\n    scale   dicom\r\n\r\n  film LF lateral "c.dcm"\r\n    scale   dicom\r\n`,
    );
    expect(format(after(text, made))).toContain('scale   dicom\r\n\r\n  film');
  });

  it('below a film that is written already, as a snippet of whole lines', () => {
    const days = { day: '2026-11-25', today };
    expect(snippetFromFile({ ...nothing, taken: '2026-11-24', scale: true }, days)).toBe(
      '${1:    taken   2026-11-24\n}${2:    scale   dicom\n}$0',
    );
    expect([snippetFromFile(nothing, days), snippetFromFile(null, days)]).toEqual([null, null]);
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
