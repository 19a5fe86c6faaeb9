import { shownDate } from '../../shared/language/dates.ts';
import { SymbolKind, type CancellationToken, type SymbolInformation } from 'vscode-languageserver';
import type { LineSpan } from '../../shared/notation/line-span.ts';
import { fit } from '../text/fuzzy.ts';
import { stopIfCancelled } from '../serving/guard.ts';
import { rangeAt } from '../workspace/across-diagnostics.ts';
import { Pauses } from '../workspace/pause.ts';
import type { KnownCase, Workspace } from '../workspace/workspace.ts';

/** Nobody reads further than this; typing one letter more is quicker. */
const most = 500;

interface SymbolMatch {
  readonly name: string;
  readonly kind: SymbolKind;
  readonly container: string;
  readonly at: LineSpan;
  /** The smaller, the sooner it is meant where two fit alike: a case before its code, its visits and their films. */
  readonly rank: number;
  readonly date: string;
}

/** Cases, study codes, visits and films of the whole workspace, as they are known by now; the likeliest first. */
export async function workspaceSymbols(
  workspace: Workspace,
  query: string,
  token: CancellationToken,
): Promise<SymbolInformation[]> {
  const words = query.split(/\s+/).filter((word) => word !== '');
  const found: (SymbolMatch & { uri: string; fits: number })[] = [];
  const pauses = new Pauses();
  for (const one of workspace.cases()) {
    for (const symbol of symbolsOf(one, workspace.index.called(one.key))) {
      const fits = fitAll(words, symbol);
      if (fits !== null) found.push({ ...symbol, uri: one.uri, fits });
    }
    await pauses.now();
    stopIfCancelled(token);
  }
  return found
    .sort(
      (a, b) =>
        b.fits - a.fits ||
        a.rank - b.rank ||
        compare(b.date, a.date) ||
        compare(a.name, b.name) ||
        compare(a.container, b.container),
    )
    .slice(0, most)
    .map(({ name, kind, container, at, uri }) => ({
      name,
      kind,
      location: { uri, range: rangeAt(at) },
      containerName: container,
    }));
}

function* symbolsOf({ entry }: KnownCase, file: string): Generator<SymbolMatch> {
  const { facts, caseAt, visits } = entry;
  const called = facts.name ?? file;
  if (caseAt) yield { name: called, kind: SymbolKind.Class, container: file, at: caseAt, rank: 0, date: '' };
  if (facts.code)
    yield { name: facts.code.value, kind: SymbolKind.Key, container: called, at: facts.code.at, rank: 1, date: '' };
  for (const { date, title, at, films } of visits) {
    const name = [date ?? 'visit', title].filter((part) => part !== null).join(' ');
    yield { name, kind: SymbolKind.Event, container: called, at, rank: 2, date: date ?? '' };
    for (const film of films) {
      const shown = `${film.kind} ${film.foot} ${film.view} ${film.path}`;
      const container = date === null ? called : `${called}, ${shownDate(date)}`;
      yield { name: shown, kind: SymbolKind.Object, container, at: film.at, rank: 3, date: date ?? '' };
    }
  }
}

/** Each word fits the name or, at half its worth, what it lies in; null where one fits neither. */
function fitAll(words: readonly string[], { name, container }: SymbolMatch): number | null {
  let sum = 0;
  for (const word of words) {
    const best = Math.max(fit(word, name) ?? -1, (fit(word, container) ?? -2) / 2);
    if (best < 0) return null;
    sum += best;
  }
  return sum;
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
