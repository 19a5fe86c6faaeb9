/** Changes by the point that each leads to. */
export function changesTo<C extends { readonly to: number }>(changes: readonly C[]): ReadonlyMap<number, C> {
  return new Map(changes.map((change) => [change.to, change]));
}
