/** Runs the nine short programs, one after the other; each is what a user of the library writes first. */
for (const name of [
  ...['turfFeature', 'ownRows', 'response', 'arrowAndPlot'],
  ...['webMap', 'ownArrays', 'worker', 'acrossEngines', 'followAlong'],
]) {
  await import(`./${name}.ts`);
}

export {};
