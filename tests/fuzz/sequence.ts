import type { Inspection } from '../../shared/findings/inspect.ts';
import { BlockMemory } from '../../shared/notation/parse.ts';
import { randomFrom } from '../property/random-edits.ts';
import { shownBy, type Pipeline } from './fresh.ts';
import { start } from './starts.ts';
import { Given, usualSettings, type State } from './state.ts';
import { nextState } from './steps.ts';
import { difference, told } from './told.ts';

/** The seed of one sequence of a run, so that it can be had again without those before it. */
export function seedOf(seed: number, number: number): number {
  return (Math.imul(seed ^ 0x9e3779b9, 0x85ebca6b) + Math.imul(number, 0xc2b2ae35)) >>> 0;
}

/** The states of one sequence, the first to begin with. */
export function statesOf(seed: number): State[] {
  const random = randomFrom(seed);
  let now: State = { text: start(random), settings: usualSettings, scales: {} };
  const states = [now];
  for (let left = 2 + random(9); left > 0; left--) {
    const past = states.map(({ text }) => text);
    now = nextState(now, random, past);
    states.push(now);
  }
  return states;
}

export interface Failure {
  /** Which state was told otherwise than anew. */
  readonly at: number;
  readonly difference: string;
}

export interface Instances {
  /** The one that goes through the states with a memory. */
  readonly remembering: Pipeline;
  /** The one that sees each text without. */
  readonly forgetting: Pipeline;
}

/**
 * Goes through the states one after the other with one block memory, as a server does with a document, and holds what is
 * told of each against what is told of it without a memory. Null where all are equal.
 */
export function failureOf(states: readonly State[], { remembering, forgetting }: Instances): Failure | null {
  const memory = new BlockMemory();
  const given = new Given();
  for (const [at, { text, settings, scales }] of states.entries()) {
    const all = (pipeline: Pipeline, kept?: BlockMemory): unknown => {
      let inspection: Inspection | undefined;
      try {
        inspection = pipeline.inspect(text, given.settings(settings), kept, given.scales(scales));
        return { ...told(inspection), sheets: shownBy(pipeline, inspection) };
      } catch (error) {
        // A crash is a difference too, of both: nothing may throw.
        return {
          crash: kept ? `remembering: ${String(error)}` : `anew: ${String(error)}`,
          made: inspection !== undefined,
        };
      }
    };
    const found = difference(all(remembering, memory), all(forgetting));
    if (found !== null) return { at, difference: found };
  }
  return null;
}
