import { findMeasure, measureNames } from '../measures/registry.ts';
import { nearest } from '../notation/nearest.ts';
import type { Fix } from '../notation/problems.ts';
import type { Span } from '../notation/tree.ts';
import type { CaseRecord } from '../record/schema.ts';
import { codes, findCode } from './catalogue.ts';
import { moved, placedIn, type PlacedAcceptance as Placed } from './placed-acceptances.ts';
import type { Finding, Severity } from './finding.ts';
import { widened } from './whole-lines.ts';
import { list } from './wording.ts';

/**
 * The findings with those that the case accepts turned into notes, and with what is to be said of the acceptances
 * themselves. The same array where the case accepts nothing.
 */
export function withAcceptances(findings: readonly Finding[], record: CaseRecord, text: string): readonly Finding[] {
  const placed = placedIn(record);
  if (placed.length === 0) return findings;
  const valid = new Map<string, Placed[]>();
  const told: Finding[] = [];
  for (const one of placed) {
    const wrong = wrongAbout(one, findings, text);
    const same = valid.get(one.is.code);
    if (wrong) told.push(wrong);
    else if (same) same.push(one);
    else valid.set(one.is.code, [one]);
  }
  const used = new Set<Placed>();
  for (const finding of findings) {
    const by = innermost((valid.get(finding.code) ?? []).filter((one) => covers(one, finding)));
    if (by) used.add(by);
    told.push(by ? accept(finding, by) : finding);
  }
  for (const one of [...valid.values()].flat()) if (!used.has(one)) told.push(nothing(one, used, text));
  return told;
}

/** How grave an accepted finding still is: what was to be acted on or looked at stays in the list of problems. */
export function accepted(severity: Severity): Severity {
  return severity === 'hint' || severity === 'info' ? 'hint' : 'info';
}

/** Why nobody may accept a code; undefined where one may, and for codes that there are not. */
export function whyNever(code: string): string | undefined {
  const row = findCode(code.startsWith('accept/') ? 'accept/never' : code);
  return row?.never ?? row?.elsewhere;
}

function covers({ is, within }: Placed, { at, measure }: Finding): boolean {
  if (at.start < within.start || at.start > within.end) return false;
  return is.measure === null || (measure !== undefined && findMeasure(is.measure)?.name === measure);
}

/** Of several acceptances that of the innermost block; there that which names the measure, then the first. */
function innermost(candidates: readonly Placed[]): Placed | undefined {
  const size = ({ within }: Placed): number => within.end - within.start;
  return candidates.toSorted(
    (a, b) => size(a) - size(b) || Number(a.is.measure === null) - Number(b.is.measure === null),
  )[0];
}

function accept(finding: Finding, { is, at }: Placed): Finding {
  const { text } = is.because;
  const says = /[.!?…”"]$/.test(finding.message) ? finding.message : `${finding.message}.`;
  return {
    ...finding,
    severity: accepted(finding.severity),
    message: `${says} Accepted: "${text}"`,
    related: [...finding.related, { at, message: 'Accepted here.' }],
    accepted: text,
  };
}

function wrongAbout(one: Placed, findings: readonly Finding[], source: string): Finding | null {
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
    title: `Write «${word}»`,
    edits: [{ ...moved(at, one.start), text: word }],
  });
  if (!findCode(code)) {
    const here = [...new Set(findings.filter((finding) => isIn(finding, one.within)).map((finding) => finding.code))];
    const acceptable = here.filter((told) => whyNever(told) === undefined);
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
      `No finding has the code «${code}».${near ? ` Did you mean «${near}»?` : acceptable.length > 0 ? ` In this ${one.is.block} are told: ${list(acceptable)}.` : ' The code stands beside the message of each finding.'}`,
      offered.map((word) => write(word, codeAt)),
    );
  }
  const never = whyNever(code);
  if (never !== undefined)
    return say(
      'accept/never',
      codeAt,
      `${findCode(code)?.title}: this cannot be accepted. ${never}`,
      removal(one, source),
    );
  if (measure !== null && measureAt && !findMeasure(measure)) {
    const near = nearest(measure, measureNames());
    return say(
      'measure/unknown',
      measureAt,
      `There is no measure «${measure}».${near ? ` Did you mean «${near}»?` : ' Leave it out to accept whatever this code tells in the block.'}`,
      near ? [write(near, measureAt)] : [],
    );
  }
  if (because.text.trim() === '')
    return say(
      'accept/no-reason',
      because.at,
      'No reason yet, so nothing is accepted. Write between the quotes why this is lived with, for whoever reads the case next.',
    );
  return null;
}

function nothing(one: Placed, used: ReadonlySet<Placed>, text: string): Finding {
  const { code, measure, block } = one.is;
  const what = measure === null ? code : `${code} of ${measure}`;
  const first = [...used].find(
    ({ is, within }) => is.code === code && within.start >= one.within.start && within.end <= one.within.end,
  );
  return {
    code: 'accept/nothing',
    severity: findCode('accept/nothing')?.severity ?? 'info',
    at: one.at,
    message: first
      ? `Nothing to accept here: what ${what} tells in this ${block} is accepted already. Remove one of the two lines.`
      : `Nothing to accept here: ${what} is not told in this ${block}. Remove the line, or move it into the block that it is about.`,
    related: first ? [{ at: first.at, message: 'Accepted here already.' }] : [],
    fixes: removal(one, text),
  };
}

function removal({ at }: Placed, text: string): readonly Fix[] {
  return widened([{ title: 'Remove this line', edits: [{ ...at, text: '', wholeLine: true }] }], text);
}

function isIn({ at }: Finding, { start, end }: Span): boolean {
  return at.start >= start && at.start <= end;
}
