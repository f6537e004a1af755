export * from './LineDesk';
export * from './LineStore';
