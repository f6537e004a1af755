export * from './index';
export * from './report';
