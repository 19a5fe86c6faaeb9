import { describe, expect, it } from 'vitest';
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
