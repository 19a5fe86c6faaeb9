import { PNG } from 'pngjs';
import { describe, expect, it } from 'vitest';
import { rasterPng } from '../../shared/picture/raster-png.ts';
import { readPictureInMemory } from '../../shared/picture/read-picture.ts';
import { knownColours, knownValues } from './picture-known.ts';

describe('a raster as PNG, read back by another library', () => {
  it('grey', () => {
    const data = Uint8Array.from(knownValues(61, 17, 8));
    const bytes = rasterPng({ width: 61, height: 17, channels: 1, data });
    const back = PNG.sync.read(Buffer.from(bytes));
    expect([back.width, back.height]).toEqual([61, 17]);
    expect(Array.from(back.data).filter((_, i) => i % 4 === 0)).toEqual(Array.from(data));
    expect(readPictureInMemory(bytes)).toMatchObject({ kind: 'png', width: 61, height: 17, orientation: 1 });
  });

  it('colour', () => {
    const data = knownColours(16, 9);
    const back = PNG.sync.read(Buffer.from(rasterPng({ width: 16, height: 9, channels: 3, data })));
    expect(Array.from(back.data).filter((_, i) => i % 4 !== 3)).toEqual(Array.from(data));
  });
});
