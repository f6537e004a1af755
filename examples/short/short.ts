/** Runs the eight short programs, one after the other; each is what a user of the library writes first. */
for (const name of [
  ...['turfFeature', 'ownRows', 'response', 'arrowAndPlot'],
  ...['webMap', 'ownArrays', 'worker', 'acrossEngines'],
]) {
  await import(`./${name}.ts`);
}

export {};
