import { codes } from '../shared/findings/catalogue.ts';
import { handMeasures } from '../shared/measures/by-hand.ts';
import { measureNames } from '../shared/measures/registry.ts';
import { feet } from '../shared/notation/choices.ts';
import { blocks, everyWord, statements } from '../shared/notation/vocabulary.ts';

/**
 * What is coloured alike wherever there is no server, by what it is; taken from the vocabulary, so that no word is listed twice. The
 * grammar for TextMate, the syntax for Vim and the language for highlight.js are all made of it.
 */
export interface ColourWords {
  /** First words of a line: of a block, and of what stands in one. */
  readonly blocks: readonly string[];
  readonly statements: readonly string[];
  /** Statements after which a code or a number stands that is text to the notation: `code EX01`. */
  readonly coded: readonly string[];
  /** Where they are placed, before `@`. */
  readonly landmarks: readonly string[];
  /** Anywhere within a line. */
  readonly measures: readonly string[];
  readonly findings: readonly string[];
  readonly feet: readonly string[];
  readonly marks: readonly string[];
  readonly choices: readonly string[];
  /** After a number. */
  readonly units: readonly string[];
}

export function colourWords(): ColourWords {
  const words = everyWord();
  const rows = [...blocks, ...statements];
  const taken = rows.flatMap(({ takes }) => takes.flat());
  const chosen = new Set(
    taken.flatMap((argument) =>
      argument.take === 'choice' ? argument.of : argument.take === 'word' ? argument.known : [],
    ),
  );
  // A word that is also one of a few to choose from is coloured as such.
  const marks = taken.flatMap((argument) =>
    argument.take === 'mark' && /^[a-z]/i.test(argument.text) ? [argument.text] : [],
  );
  const asMark = new Set(['because', ...marks].filter((word) => !chosen.has(word)));
  const isFoot = new Set<string>(feet);
  return {
    blocks: words.blocks,
    statements: words.statements,
    coded: statements.flatMap(({ word, takes }) => (takes.flat().some(({ take }) => take === 'code') ? [word] : [])),
    landmarks: words.landmarks,
    measures: [...new Set([...measureNames(), ...handMeasures.map(({ name }) => name)])],
    findings: codes.map(({ code }) => code),
    feet,
    marks: [...asMark],
    choices: words.choices.filter((word) => !asMark.has(word) && !isFoot.has(word)),
    units: words.units,
  };
}

/** Longest first, where the first alternative that fits is taken. */
export const longestFirst = (words: readonly string[]): string[] =>
  [...words].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
