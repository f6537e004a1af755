export { InputError, type InputErrorDetails, type InputErrorReason } from '../model/InputError';
export { type ErrorDistributionOptions, errorDistribution } from '../report/errorDistribution';
export { type PlanMapOptions, planMap } from '../report/planMap';
export { type ReportHtmlOptions, reportHtml } from '../report/reportHtml';
export type { Assessments } from '../report/reportModel';
export { type RibbonMapOptions, ribbonMap } from '../report/ribbonMap';
export { type StripChartOptions, stripChart } from '../report/stripChart';
export { toCsv } from '../report/toCsv';
export { type ReportGeometry, toGeoJson } from '../report/toGeoJson';
