/**
 * What is made of an object, made once for as long as somebody has the object. It must rest on nothing else, and the object must
 * never change: nothing ever has to be forgotten then.
 */
export function once<Of extends WeakKey, Made>(make: (of: Of) => Made): (of: Of) => Made {
  const all = new WeakMap<Of, { readonly made: Made }>();
  return (of) => {
    let one = all.get(of);
    if (!one) all.set(of, (one = { made: make(of) }));
    return one.made;
  };
}
