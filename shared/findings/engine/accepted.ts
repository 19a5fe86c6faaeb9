import { t } from '../../language/words.ts';
import { findMeasure, measureNames } from '../../measures/registry.ts';
import { nearest } from '../../notation/nearest.ts';
import type { Fix } from '../../notation/problems.ts';
import type { Span } from '../../notation/tree.ts';
import type { CaseRecord } from '../../record/schema.ts';
import { BlockSpans } from './block-spans.ts';
import { codes, findCode } from '../catalogue.ts';
import { moved, placedIn, type PlacedAcceptance as Placed } from './placed-acceptances.ts';
import type { Finding, Severity } from '../finding.ts';
import { widened } from './whole-lines.ts';
import { list } from '../wording/wording.ts';

/**
 * The findings with those that the case accepts turned into notes, and with what is to be said of the acceptances
 * themselves. The same array where the case accepts nothing.
 */
export function withAcceptances(findings: readonly Finding[], record: CaseRecord, text: string): readonly Finding[] {
  const placed = placedIn(record);
  if (placed.length === 0) return findings;
  const valid: Placed[] = [];
  const told: Finding[] = [];
  const codesIn = codesByBlock(findings);
  for (const one of placed) {
    const wrong = wrongAbout(one, codesIn, text);
    if (wrong) told.push(wrong);
    else valid.push(one);
  }
  const blocksOf = byCode(valid.filter(firstOfItsKind()));
  const used = new Set<Placed>();
  for (const finding of findings) {
    const by = acceptanceOf(finding, blocksOf.get(finding.code));
    if (by) used.add(by);
    told.push(by ? accept(finding, by) : finding);
  }
  const usedOf = byCode(used);
  for (const one of valid) if (!used.has(one)) told.push(nothing(one, usedOf.get(one.is.code), text));
  return told;
}

/** The severity of a finding once it is accepted: an error or warning stays in the list of problems, as information. */
export function accepted(severity: Severity): Severity {
  return severity === 'hint' || severity === 'info' ? 'hint' : 'info';
}

/** Why nobody may accept a code; undefined where it may be accepted, and for unknown codes. */
export function whyNever(code: string): string | undefined {
  const row = findCode(code.startsWith('accept/') ? 'accept/never' : code);
  return row?.never ?? row?.elsewhere;
}

/** The acceptance that counts for a finding: of the innermost block; there the one that names the measure, else the first. */
function acceptanceOf({ at, measure }: Finding, blocks: BlockSpans<Placed> | undefined): Placed | undefined {
  const named = ({ is }: Placed): boolean => is.measure !== null && findMeasure(is.measure)?.name === measure;
  for (const those of blocks?.around(at.start) ?? []) {
    const by = (measure === undefined ? undefined : those.find(named)) ?? those.find(({ is }) => is.measure === null);
    if (by) return by;
  }
  return undefined;
}

function byCode(acceptances: Iterable<Placed>): Map<string, BlockSpans<Placed>> {
  const those = new Map<string, Placed[]>();
  for (const one of acceptances) {
    const same = those.get(one.is.code);
    if (same) same.push(one);
    else those.set(one.is.code, [one]);
  }
  return new Map([...those].map(([code, same]) => [code, new BlockSpans(same)]));
}

/** A filter: of acceptances of the same code and measure in one block only the first counts. */
function firstOfItsKind(): (one: Placed) => boolean {
  const seen = new Set<string>();
  return ({ is, within }) => {
    const kind = `${within.start} ${is.code} ${is.measure === null ? '' : (findMeasure(is.measure)?.name ?? '')}`;
    const first = !seen.has(kind);
    seen.add(kind);
    return first;
  };
}

/** The codes of the findings in a block, each once. Remembers the answer for each block. */
function codesByBlock(findings: readonly Finding[]): (within: Span) => readonly string[] {
  const known = new Map<string, readonly string[]>();
  return (within) => {
    const key = `${within.start} ${within.end}`;
    const codes = known.get(key) ?? [...new Set(findingsFrom(findings, within).map(({ code }) => code))];
    known.set(key, codes);
    return codes;
  };
}

function accept(finding: Finding, { is, at }: Placed): Finding {
  const { text } = is.because;
  const says = /[.!?…”"]$/.test(finding.message) ? finding.message : `${finding.message}.`;
  return {
    ...finding,
    severity: accepted(finding.severity),
    message: t('{0} Accepted: "{1}"', says, text),
    related: [...finding.related, { at, message: t('Accepted here.') }],
    accepted: text,
  };
}

function wrongAbout(one: Placed, codesIn: (within: Span) => readonly string[], source: string): Finding | null {
  const { code, codeAt, measure, measureAt, because } = one.is;
  const say = (as: string, at: Span, message: string, fixes: readonly Fix[] = []): Finding => ({
    code: as,
    severity: findCode(as)?.severity ?? 'error',
    at: moved(at, one.start),
    message,
    related: [],
    fixes,
  });
  const write = (word: string, at: Span): Fix => ({
    title: t('Write «{0}»', word),
    edits: [{ ...moved(at, one.start), text: word }],
  });
  if (!findCode(code)) {
    const acceptable = codesIn(one.within).filter((told) => whyNever(told) === undefined);
    const near =
      nearest(code, acceptable) ??
      nearest(
        code,
        codes.map((row) => row.code),
      );
    const offered = near === undefined ? acceptable.slice(0, 4) : [near];
    return say(
      'accept/unknown-code',
      codeAt,
      t(
        'No finding has the code «{0}».{1}',
        code,
        near
          ? t(' Did you mean «{0}»?', near)
          : acceptable.length > 0
            ? t(' In this {0} are told: {1}.', one.is.block, list(acceptable))
            : t(' The code stands beside the message of each finding.'),
      ),
      offered.map((word) => write(word, codeAt)),
    );
  }
  const never = whyNever(code);
  if (never !== undefined)
    return say(
      'accept/never',
      codeAt,
      t('{0}: this cannot be accepted. {1}', findCode(code)?.title, never),
      removal(one, source),
    );
  if (measure !== null && measureAt && !findMeasure(measure)) {
    const near = nearest(measure, measureNames());
    return say(
      'measure/unknown',
      measureAt,
      t(
        'There is no measure «{0}».{1}',
        measure,
        near ? t(' Did you mean «{0}»?', near) : t(' Leave it out to accept whatever this code tells in the block.'),
      ),
      near ? [write(near, measureAt)] : [],
    );
  }
  if (because.text.trim() === '')
    return say(
      'accept/no-reason',
      because.at,
      t(
        'No reason yet, so nothing is accepted. Write between the quotes why this is lived with, for whoever reads the case next.',
      ),
    );
  return null;
}

function nothing(one: Placed, used: BlockSpans<Placed> | undefined, text: string): Finding {
  const { code, measure, block } = one.is;
  const what = measure === null ? code : t('{0} of {1}', code, measure);
  const first = used?.firstIn(one.within);
  return {
    code: 'accept/nothing',
    severity: findCode('accept/nothing')?.severity ?? 'info',
    at: one.at,
    message: first
      ? t(
          'Nothing to accept here: what {0} tells in this {1} is accepted already. Remove one of the two lines.',
          what,
          block,
        )
      : t(
          'Nothing to accept here: {0} is not told in this {1}. Remove the line, or move it into the block that it is about.',
          what,
          block,
        ),
    related: first ? [{ at: first.at, message: t('Accepted here already.') }] : [],
    fixes: removal(one, text),
  };
}

function removal({ at }: Placed, text: string): readonly Fix[] {
  return widened([{ title: t('Remove this line'), edits: [{ ...at, text: '', wholeLine: true }] }], text);
}

/** The findings that begin in a block; `findings` in the order of the text. */
function findingsFrom(findings: readonly Finding[], { start, end }: Span): readonly Finding[] {
  const first = firstAt(findings, start);
  return findings.slice(first, firstAt(findings, end + 1));
}

/** How many findings begin before a place. */
function firstAt(findings: readonly Finding[], place: number): number {
  let [low, high] = [0, findings.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((findings[middle] as Finding).at.start < place) low = middle + 1;
    else high = middle;
  }
  return low;
}
