import type { State } from './state.ts';

type Fails = (states: readonly State[]) => boolean | Promise<boolean>;

/**
 * Fewer and shorter states that fail still. States do not build on one another: any of them may be left out, and a line may
 * be taken out of all texts that have it, so that what an edit changes stays what it changes.
 */
export async function shrunk(states: readonly State[], fails: Fails, tries = 3000): Promise<State[]> {
  let left = tries;
  const works: Fails = async (candidate) => left-- > 0 && (await fails(candidate));
  let best = [...states];
  // Until a round leaves nothing out any more; with no tries left nothing works.
  for (let before = ''; before !== JSON.stringify(best);) {
    before = JSON.stringify(best);
    best = await fewer(best, works);
    const all = best;
    const keeping = (lines: readonly string[]): State[] => {
      const those = new Set(lines);
      const kept = (text: string): string =>
        linesOf(text)
          .filter((line) => those.has(line))
          .join('');
      return all.map((state) => ({ ...state, text: kept(state.text) }));
    };
    const lines = [...new Set(all.flatMap(({ text }) => linesOf(text)))];
    best = keeping(await fewer(lines, (kept) => works(keeping(kept))));
    best = await plainer(best, works);
  }
  return best;
}

/** Leaves out ever smaller runs of `items` for as long as it fails without them. */
async function fewer<T>(items: readonly T[], works: (items: readonly T[]) => boolean | Promise<boolean>): Promise<T[]> {
  let best = [...items];
  for (let run = Math.ceil(best.length / 2); run >= 1; run = run === 1 ? 0 : Math.ceil(run / 2))
    for (let at = 0; at < best.length;) {
      const without = [...best.slice(0, at), ...best.slice(at + run)];
      if (await works(without)) best = without;
      else at += run;
    }
  return best;
}

/** The settings and scales of the state before in each one, wherever they do not matter. */
async function plainer(states: readonly State[], works: Fails): Promise<State[]> {
  let best = [...states];
  for (const index of best.keys())
    for (const part of ['settings', 'scales'] as const) {
      const before = best[index - 1];
      if (!before || JSON.stringify(before[part]) === JSON.stringify(best[index]?.[part])) continue;
      const other = best.map((state, at) => (at === index ? { ...state, [part]: before[part] } : state));
      if (await works(other)) best = other;
    }
  return best;
}

function linesOf(text: string): string[] {
  return text.match(/[^\r\n]*(?:\r\n|\r|\n)|[^\r\n]+$/g) ?? [];
}
