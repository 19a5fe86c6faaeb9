import { crc32, deflateSync } from 'node:zlib';

/** A grey PNG (PNG, third edition, clause 5), one or eight bits a pixel, with `rows` of its picture really there. */
export function greyPng(width: number, height: number, bits: 1 | 8 = 8, rows = height): Uint8Array {
  const row = Buffer.alloc(1 + Math.ceil((width * bits) / 8));
  for (let at = 1; at < row.length; at++) row[at] = (at * 7) & 255;
  const header = Buffer.alloc(13);
  header.writeUInt32BE(width, 0);
  header.writeUInt32BE(height, 4);
  header[8] = bits;
  const picture = deflateSync(Buffer.alloc(row.length * rows, row), { level: 1 });
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', header),
    chunk('IDAT', picture),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(name: string, data: Uint8Array): Buffer {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), data]);
  const [length, sum] = [Buffer.alloc(4), Buffer.alloc(4)];
  length.writeUInt32BE(data.length);
  sum.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, sum]);
}
