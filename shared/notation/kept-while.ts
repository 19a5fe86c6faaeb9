/**
 * What is made of an object and of a few other things, made anew when one of those is no longer the same. It must rest on
 * nothing else. Where `once` does not do, as what it rests on changes while the object stays.
 */
export function keptWhile<Of extends WeakKey, Made>(): (of: Of, restsOn: readonly unknown[], make: () => Made) => Made {
  const all = new WeakMap<Of, { readonly restsOn: readonly unknown[]; readonly made: Made }>();
  return (of, restsOn, make) => {
    const kept = all.get(of);
    if (kept?.restsOn.length === restsOn.length && kept.restsOn.every((one, index) => Object.is(one, restsOn[index])))
      return kept.made;
    const made = make();
    all.set(of, { restsOn, made });
    return made;
  };
}
