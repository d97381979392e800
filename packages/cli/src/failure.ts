/** Exit codes of the command. */
export const EXIT = {
  /** Made and proved. */
  made: 0,
  /** Nothing made: the design, tools or sheets cannot work. */
  cannot: 1,
  /** The input could not be read, or the call was wrong. */
  unreadable: 2,
  /** A proof failed: a defect of ours. */
  disproved: 3,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** Something outside the program went wrong, told in a sentence for the person at the keyboard. */
export class Failure extends Error {
  readonly exitCode: ExitCode;
  constructor(message: string, exitCode: ExitCode = EXIT.unreadable) {
    super(message);
    this.exitCode = exitCode;
  }
}
