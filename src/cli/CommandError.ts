/** Why the command stopped, as the one sentence that a user reads; never shown with a stack trace. */
export class CommandError extends Error {
  /** 1: could not be done; 2: wrong usage. */
  readonly exitCode: 1 | 2;

  constructor(message: string, exitCode: 1 | 2) {
    super(message);
    this.exitCode = exitCode;
  }
}

/** Something about a file: the sentence begins with its name. */
export function cannot(file: string, sentence: string): CommandError {
  return new CommandError(`${file}: ${sentence}`, 1);
}

/** The command was called wrongly; `command` is the one whose help to read, empty for the whole. */
export function wrongUsage(sentence: string, command = ''): CommandError {
  return new CommandError(`${sentence}. See "datumline ${command ? `${command} ` : ''}--help"`, 2);
}
