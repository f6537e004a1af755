// One script for both sides: where there is no document, it is the worker that the page started from its own text.
if (typeof document === 'undefined') await import('./worker');
else await import('./start');

export {};
