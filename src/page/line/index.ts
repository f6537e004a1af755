export { LineDesk } from './LineDesk';
export { type JsonValue, type LineStore, makeLineStore } from './LineStore';
