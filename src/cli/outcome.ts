/** What a command came to. Nothing is printed by a command itself. */
export interface Outcome {
  /** The result: everything that goes to standard output. */
  readonly out: string;
  /** Messages, one a line, for standard error. */
  readonly messages?: readonly string[];
  /** 0: nothing needs attention; 1: something does. Unusable input or usage (2) is a `Refusal`. */
  readonly status: 0 | 1;
}
