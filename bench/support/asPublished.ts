/**
 * To be imported before all else by whatever measures: tsx names each inner function anew whenever it is made, by
 * `Object.defineProperty`, which the published code doesn't. A loop that makes one costs two or three times its own for that.
 */
const define = Object.defineProperty;
Object.defineProperty = ((target: object, key: PropertyKey, described: PropertyDescriptor) =>
  key === 'name' && typeof target === 'function' ? target : define(target, key, described)) as typeof define;
