/** All of the library in one: what a page or a notebook loads as one file, `dist/datumline.min.js`. */
export * from './index';
export * from './report';
