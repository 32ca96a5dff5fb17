export { CareError, type CareErrorCode } from './care-error.js';
