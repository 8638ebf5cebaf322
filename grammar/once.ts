/** What is made of a part of the vocabulary, or of anything else that stays as it is, made once and kept as long as that is. */
export function onceForEach<Thing extends object, Made>(make: (thing: Thing) => Made): (thing: Thing) => Made {
  const known = new WeakMap<Thing, { readonly made: Made }>();
  return (thing) => {
    const before = known.get(thing);
    if (before !== undefined) return before.made;
    const made = make(thing);
    known.set(thing, { made });
    return made;
  };
}
