/** A string of at least one character. @minLength 1 */
export type Name = string;
