// The parser library groups with Object.groupBy, which Node has from 21 on; Node 20 is promised too, so it gets one.
// esbuild.mjs puts this first into the bundles that run on the user's own Node.
const grouping = Object as {
  groupBy?: <T>(
    things: Iterable<T>,
    keyOf: (thing: T, index: number) => PropertyKey,
  ) => Partial<Record<PropertyKey, T[]>>;
};

grouping.groupBy ??= (things, keyOf) => {
  const groups: Partial<Record<PropertyKey, never[]>> = Object.create(null) as Partial<Record<PropertyKey, never[]>>;
  let index = 0;
  for (const thing of things) (groups[keyOf(thing, index++)] ??= []).push(thing as never);
  return groups;
};
