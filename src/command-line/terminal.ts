/** How commands speak: answers on standard output, progress only to somebody who is watching. */

/** A line about long work, for a person at a terminal; silence in a pipe. */
export function progress(line: string): void {
  if (process.stderr.isTTY) process.stderr.write(`${line}\n`);
}

/** The command's answer: JSON when asked for, else lines for a person. */
export function answer(data: unknown, lines: readonly string[], asJson: boolean | undefined): void {
  process.stdout.write(asJson ? `${JSON.stringify(data, null, 2)}\n` : `${lines.join('\n')}\n`);
}

/** Says why it failed, on standard error. @returns the exit code for that */
export function failed(error: unknown): 1 {
  const message = error instanceof Error ? error.message : String(error);
  process.stderr.write(`${message}\n`);
  if (process.env['BOWLWORTH_LOG'] === 'info' && error instanceof Error) {
    process.stderr.write(`${error.stack ?? ''}\n`);
  }
  return 1;
}

/** A table in plain columns. */
export function columns(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] ?? []).map((_, index) =>
    Math.max(...rows.map((row) => row[index]?.length ?? 0)),
  );
  return rows.map((row) =>
    row
      .map((cell, index) => cell.padEnd(widths[index] ?? 0))
      .join('  ')
      .trimEnd(),
  );
}
