/** A function that gives a name used before a number: "bridge", "bridge (2)". */
export function uniqueNames(): (name: string) => string {
  const taken = new Set<string>();
  /** By a name, the number that was given to it last. */
  const last = new Map<string, number>();
  return (name) => {
    let unique = name;
    let number = last.get(name) ?? 1;
    while (taken.has(unique)) unique = `${name} (${++number})`;
    last.set(name, number);
    taken.add(unique);
    return unique;
  };
}
