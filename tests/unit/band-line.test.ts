import { describe, expect, it } from 'vitest';
import { bandLine } from '../../server/features/describe/band-line.ts';

const line = (low: number | null, high: number | null, ...values: number[]): string[] =>
  bandLine({ low, high }, values, 'deg').split('\n');

describe('the usual range as a line of text', () => {
  it('has the value between the limits where it lies between them', () => {
    // From 0° to 12° in 41 signs: 0.3° to the sign.
    const [signs = '', limits = ''] = line(2, 10, 6);
    expect(signs).toBe(`${'·'.repeat(7)}├${'─'.repeat(12)}●${'─'.repeat(12)}┤${'·'.repeat(7)}`);
    expect([limits.indexOf('2°'), limits.indexOf('10°')]).toEqual([6, 32]);
  });

  it.each([
    [2, 10, 1, /^·+●·+├─+┤·+$/],
    [2, 10, 30, /^·+├─+┤·+●·+$/],
    [2, 10, 2, /^·+●─+┤·+$/],
    [null, 8, 3, /^─+●─+┤·+$/],
    [null, 8, 9, /^─+┤·*●·+$/],
    [2, null, -5, /^·+●·+├─+$/],
    [0, null, 0, /^·+●─+$/],
  ] as const)('%s to %s with %d', (low, high, value, expected) => {
    const [signs = ''] = line(low, high, value);
    expect(signs).toMatch(expected);
    expect(signs).toHaveLength(41);
  });

  it('shows each reader’s value, and is empty where there is nothing to compare', () => {
    expect(line(2, 10, 3, 9)[0]?.match(/●/g)).toHaveLength(2);
    expect(bandLine({ low: null, high: null }, [3], 'mm')).toBe('');
    expect(bandLine({ low: 1, high: 3 }, [], 'mm')).toBe('');
  });

  it('never writes one limit over the other', () => {
    expect(bandLine({ low: 4, high: 4.5 }, [80], 'mm').split('\n')[1]?.trim()).toMatch(/^4 mm +4\.5 mm$/);
  });
});
