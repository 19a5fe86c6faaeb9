import { join } from 'node:path';
import { colourWords, longestFirst } from './colour-words.ts';

/** A folder that Vim and Neovim take as part of their runtime path: `set runtimepath+=…/syntaxes/vim`. */
const VIM = join(import.meta.dirname, '..', 'syntaxes', 'vim');
export const VIM_SYNTAX_FILE = join(VIM, 'syntax', 'hoof.vim');
export const VIM_FILETYPE_FILE = join(VIM, 'ftdetect', 'hoof.vim');

/** What is blank to the notation; to Vim's `\s` only a space and a tab are. */
const BLANKS = ' \\t\\x0b\\x0c\\xa0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000\\ufeff';
const BLANK = `[${BLANKS}]`;
/** In Vim's own kind of regular expression, where it is magic; a letter beyond ASCII is whatever is no sign and no blank. */
const LETTER = `\\%([0-9A-Za-z_]\\|[^\\x01-\\x7f±≤≥${BLANKS}]\\)`;
const BEFORE = `\\%([0-9A-Za-z_./-]\\|[^\\x01-\\x7f±≤≥${BLANKS}]\\)\\@1<!`;
const AFTER = `\\%(${LETTER}\\|[./-]${LETTER}\\)\\@!`;
const LINE_START = `\\%(^${BLANK}*\\)\\@<=`;
const NUMBER = '-\\?\\d\\+\\%(\\.\\d\\+\\)\\?';

const oneOf = (words: readonly string[]): string =>
  `\\%(${longestFirst(words)
    .map((word) => word.replace(/[.*^$~[\]\\/]/g, '\\$&'))
    .join('\\|')}\\)`;

/** Of several matches that begin at one place the last that is written down counts: the strongest comes last. */
export function vimSyntax(): string {
  const words = colourWords();
  const match = (group: string, pattern: string): string => `syn match ${group} /${pattern}/`;
  const inner = (group: string, of: readonly string[]): string => match(group, `${BEFORE}${oneOf(of)}${AFTER}`);
  const first = (group: string, of: readonly string[], then = ''): string =>
    match(group, `${LINE_START}${oneOf(of)}${AFTER}${then}`);
  return `${[
    '" Made by scripts/colours.ts from the vocabulary. Colours of a hoof case.',
    "if exists('b:current_syntax')",
    '  finish',
    'endif',
    'let s:cpo_save = &cpo',
    'set cpo&vim',
    'syn case match',
    // Every line stands by itself.
    'syn sync minlines=1 maxlines=1',
    match('hoofOperator', '+-\\|±\\|[<>]=\\?\\|[≤≥=@]'),
    match('hoofNumber', `\\%(${BEFORE}\\|\\%(+-\\)\\@2<=\\)${NUMBER}`),
    match('hoofUnit', `\\%(\\d${BLANK}*\\)\\@<=${oneOf(words.units)}${AFTER}`),
    match('hoofNumber', '\\%([0-9.-]\\)\\@1<!\\d\\{4}-\\d\\{2}\\%(-\\d\\{2}\\)\\?\\%([0-9.-]\\)\\@!'),
    inner('hoofChoice', words.choices),
    inner('hoofMark', words.marks),
    inner('hoofFoot', words.feet),
    inner('hoofFinding', words.findings),
    inner('hoofMeasure', words.measures),
    first('hoofWord', words.statements),
    first('hoofLandmark', words.landmarks, `\\%(${BLANK}*@\\)\\@=`),
    match('hoofCode', `\\%(^${BLANK}*${oneOf(words.coded)}${BLANK}\\+\\)\\@<=[^${BLANKS}"#]\\+`),
    first('hoofBlock', words.blocks),
    'syn match hoofEscape /\\\\["\\\\]/ contained',
    'syn region hoofText start=/"/ skip=/\\\\["\\\\]/ end=/"/ end=/$/ keepend contains=hoofEscape',
    match('hoofComment', '#.*$'),
    match('hoofProse', `^${BLANK}*|.*$`),
    '',
    ...Object.entries(links).map(([group, to]) => `hi def link ${group} ${to}`),
    '',
    "let b:current_syntax = 'hoof'",
    'let &cpo = s:cpo_save',
    'unlet s:cpo_save',
  ].join('\n')}\n`;
}

/** Prose is a person's own words and stays plain. */
const links: Readonly<Record<string, string>> = {
  hoofBlock: 'Statement',
  hoofWord: 'Identifier',
  hoofLandmark: 'Type',
  hoofMeasure: 'Special',
  hoofFinding: 'Constant',
  hoofFoot: 'Constant',
  hoofChoice: 'Constant',
  hoofMark: 'Operator',
  hoofOperator: 'Operator',
  hoofNumber: 'Number',
  hoofUnit: 'Statement',
  hoofText: 'String',
  hoofEscape: 'String',
  hoofCode: 'String',
  hoofComment: 'Comment',
};

export const vimFiletype = (): string =>
  '" Made by scripts/colours.ts.\nau BufRead,BufNewFile *.hoof setfiletype hoof\n';
