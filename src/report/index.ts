export { type ErrorDistributionOptions, errorDistribution } from './errorDistribution';
export { type PlanMapOptions, planMap } from './planMap';
export { type ReportHtmlOptions, reportHtml } from './reportHtml';
export type { Assessments } from './reportModel';
export { type RibbonMapOptions, ribbonMap } from './ribbonMap';
export { type StripChartOptions, stripChart } from './stripChart';
export { toCsv } from './toCsv';
export { type ReportGeometry, toGeoJson } from './toGeoJson';
