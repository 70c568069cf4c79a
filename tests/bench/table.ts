/** Prints a table whose columns line up. */

export function table(title: string, head: string[], rows: string[][]): void {
  const widths = head.map((name, column) =>
    Math.max(name.length, ...rows.map((row) => row[column]?.length ?? 0)),
  );
  const line = (cells: string[]) =>
    cells.map((cell, column) => cell.padStart(widths[column] ?? 0)).join('  ');
  console.log(`\n${title}\n${line(head)}`);
  for (const row of rows) console.log(line(row));
}
