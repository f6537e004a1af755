export { LineDesk } from './LineDesk';
export { type KeptLine, type LineStore, makeLineStore } from './LineStore';
