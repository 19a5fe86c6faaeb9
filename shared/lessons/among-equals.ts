import { SURELY } from '../course/change.ts';

/**
 * A difference that two placings of the key's own standard deviation stay below in 95 of 100 cases: 1.96 times the root of 2 of it.
 * By the key's alone, so that nobody widens it by a `+-` of one's own.
 */
export const AMONG_EQUALS = SURELY * Math.SQRT2;
