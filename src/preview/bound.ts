/** The same, so that a part of the page may take a single action off it: each stays with the model it is of. */
export function bound<T extends object>(model: T): T {
  return new Proxy(model, {
    get(target, key) {
      const value: unknown = Reflect.get(target, key, target);
      return typeof value === 'function' ? (value.bind(target) as unknown) : value;
    },
  });
}
