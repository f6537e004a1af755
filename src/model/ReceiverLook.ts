/** How a receiver is drawn; what is not stated follows from its name. */
export interface ReceiverLook {
  /** `#rrggbb`, the same on light and on dark ground. @pattern ^#[0-9a-fA-F]{6}$ */
  readonly colour?: string;
  /** How its line is broken. */
  readonly dash?: LineDash;
}

/**
 * Looks by the receiver's name as the report shows it; names that are not there are passed over, so that one table serves
 * many reports.
 */
export interface ReceiverLooks {
  readonly [receiver: string]: ReceiverLook;
}

export type LineDash =
  | 'solid'
  | 'dashed'
  | 'dotted'
  | 'dash-dotted'
  | 'long-dashed'
  | 'dash-dot-dotted'
  | 'fine-dotted';
