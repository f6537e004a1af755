/** How many: a whole number, 0 or more. @asType integer @minimum 0 */
export type Count = number;

/** A whole number, 1 or more: how many, or which one, counted from 1. @asType integer @minimum 1 */
export type Natural = number;

/** A part of a whole, or a probability: 0 to 1. @minimum 0 @maximum 1 */
export type Share = number;

/** A quantity without a sign, such as a length or a duration: 0 or more. @minimum 0 */
export type Size = number;

/** A quantity greater than 0. @exclusiveMinimum 0 */
export type PositiveSize = number;
