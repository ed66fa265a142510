/** What the program's exit code says. */
export const exitCodes = {
  fine: 0,
  /** Findings of severity error, or plates that did not fit: nothing was written. */
  findings: 1,
  /** Input that cannot be used, or a crash. */
  badInput: 2,
} as const;
