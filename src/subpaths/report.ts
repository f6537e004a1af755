export type { Assessment } from '../assess/Assessment';
export type { AsyncOptions, StopSignal } from '../model/AsyncOptions';
export { InputError, type InputErrorDetails, type InputErrorReason } from '../model/InputError';
export type { LineDash, ReceiverLook, ReceiverLooks } from '../model/ReceiverLook';
export type { Progress } from '../model/Steps';
export { type ErrorDistributionOptions, errorDistribution } from '../report/errorDistribution';
export type { PictureOptions, StretchPictureOptions } from '../report/PictureOptions';
export type { PlanMapOptions } from '../report/PlanMapOptions';
export type { PictureTheme } from '../report/pictureStyle';
export { planMap } from '../report/planMap';
export type { ReportHtmlOptions } from '../report/ReportHtmlOptions';
export { reportHtml } from '../report/reportHtml';
export { reportHtmlAsync } from '../report/reportHtmlAsync';
export type { Assessments } from '../report/reportModel';
export { type NamedPicture, type ReportPicturesOptions, reportPictures } from '../report/reportPictures';
export { type RibbonMapOptions, ribbonMap } from '../report/ribbonMap';
export type { SurroundingOptions } from '../report/SurroundingOptions';
export { type StripChartOptions, stripChart } from '../report/stripChart';
export { type TimedToCsvOptions, timedToCsv } from '../report/timedToCsv';
export { toCsv } from '../report/toCsv';
export {
  type ReportFigures,
  type ReportGeometry,
  type ReportProperties,
  type ReportStrand,
  toGeoJson,
} from '../report/toGeoJson';
export { type ToPngOptions, toPng } from '../report/toPng';
