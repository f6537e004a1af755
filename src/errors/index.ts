export { InputError, type InputErrorDetails, type InputErrorReason } from './InputError';
