/** Builds the page into dist/browser; nothing to do where what it is made of has not changed. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const root = fileURLToPath(new URL('../../../', import.meta.url));
const sources = ['src/browser', 'shared', 'package-lock.json'];

/** A mark of all that the page is built from. */
function markOfSources(): string {
  const hash = createHash('sha256');
  for (const source of sources.map((path) => join(root, path))) {
    const files = statSync(source).isFile()
      ? [source]
      : readdirSync(source, { recursive: true, encoding: 'utf8' })
          .map((path) => join(source, path))
          .filter((path) => statSync(path).isFile())
          .sort();
    for (const file of files) hash.update(file).update(readFileSync(file));
  }
  return hash.digest('hex');
}

async function buildPage(): Promise<void> {
  const mark = markOfSources();
  const markFile = join(root, 'dist', '.page-mark');
  const index = join(root, 'dist', 'browser', 'index.html');
  const unchanged = existsSync(index) && existsSync(markFile);
  if (unchanged && readFileSync(markFile, 'utf8') === mark) return;
  await build({
    root: join(root, 'src', 'browser'),
    configFile: join(root, 'src', 'browser', 'vite.config.ts'),
    logLevel: 'error',
  });
  writeFileSync(markFile, mark);
}

await buildPage();
