import { describe, expect, it } from 'vitest';
import { acrossFiles } from '../../shared/findings/across/across-files.ts';
import { caseFacts } from '../../shared/findings/across/case-facts.ts';
import { inspect } from '../../shared/findings/inspect.ts';
import { samePath } from '../../shared/picture/same-path.ts';
import { boneCase } from './bone-cases.ts';

const told = (one: string, other: string) =>
  inspect(boneCase([{ picture: one }, { picture: other }])).findings.filter(({ code }) => code === 'picture/twice');

describe('one picture on two days', () => {
  it.each([
    'films/../films/same.png',
    './films/same.png',
    'films//same.png',
    'Films/SAME.png',
    'x/../films/./same.png',
  ])('is known however its path is written: %s', (path) => {
    expect(told('films/same.png', path)).toHaveLength(1);
    expect(told(path, 'films/same.png')).toHaveLength(1);
  });

  it('is not another one', () => {
    for (const path of ['../films/same.png', 'same.png', 'films/same.jpg', 'films/other/same.png'])
      expect(told('films/same.png', path), path).toEqual([]);
  });
});

describe('a path as it is compared', () => {
  it('climbs no higher than it is known, and is joined to the folder of its file', () => {
    expect(samePath('../../a.png')).toBe('../../a.png');
    expect(samePath('../a.png', 'cases/one')).toBe('cases/a.png');
    expect(samePath('../../../a.png', 'cases/one')).toBe('../a.png');
    expect(samePath('A.png', 'file:///home/x')).toBe('file:/home/x/a.png');
  });
});

describe('one picture in several cases', () => {
  const across = (files: Readonly<Record<string, string>>) => {
    const cases = Object.entries(files).map(([file, text]) => {
      const { tree, study } = inspect(text);
      return { file, called: file.replace(/.*\//, ''), facts: caseFacts(tree, study.record) };
    });
    return [...acrossFiles(cases).values()].flat();
  };
  const film = (...pictures: readonly string[]) => boneCase(pictures.map((picture) => ({ picture })));

  it('is told in each file at its first such picture, with the other place', () => {
    const text = film('x.png', 'films/a.png', 'films/b.png');
    const told = across({ '/c/a.hoof': text, '/c/b.hoof': film('./films/A.png'), '/c/c.hoof': film('films/b.png') });
    expect(told.map(({ file, code, severity }) => [file, code, severity])).toEqual([
      ['/c/a.hoof', 'case/same-picture', 'warning'],
      ['/c/b.hoof', 'case/same-picture', 'warning'],
      ['/c/c.hoof', 'case/same-picture', 'warning'],
    ]);
    expect(told[0]?.message).toMatch(
      /^This picture is a film of b\.hoof too\. So is one more picture of this file\. It was taken once, of one animal/,
    );
    const line = text.split('\n').findIndex((one) => one.includes('films/a.png'));
    expect(told[0]?.at.line).toBe(line);
    expect(text.split('\n')[line]?.slice(told[0]?.at.from, told[0]?.at.to)).toBe('"films/a.png"');
    expect(told[0]?.related).toMatchObject([{ file: '/c/b.hoof' }]);
  });

  it('is the same from folders of their own, also as URIs', () => {
    expect(across({ '/c/one/a.hoof': film('../films/a.png'), '/c/b.hoof': film('films/a.png') })).toHaveLength(2);
    expect(
      across({ 'file:///c%20d/one/a.hoof': film('../../c d/a.png'), 'file:///c%20d/b.hoof': film('a.png') }),
    ).toHaveLength(2);
  });

  it('is not another of the same name in another folder', () => {
    expect(across({ '/c/one/a.hoof': film('a.png'), '/c/two/b.hoof': film('a.png') })).toEqual([]);
    expect(across({ '/c/a.hoof': film('a.png', './a.png') })).toEqual([]);
  });
});
