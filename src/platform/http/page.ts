/** Serves the built page at "/": where it lies, how long a browser may keep which part of it. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FastifyInstance } from 'fastify';
import { serveFolder } from './files.js';

/** The folder of the built page, seen from the sources and from what was built of them. */
export function builtPage(): string {
  const up = import.meta.url.includes('/dist/') ? '../../../..' : '../../..';
  return join(fileURLToPath(new URL(`${up}/`, import.meta.url)), 'dist', 'browser');
}

/** Serves the page where it has been built; a service without one still answers its calls. */
export function servePage(server: FastifyInstance, folder: string): void {
  if (!existsSync(join(folder, 'index.html'))) return;
  serveFolder(server, {
    folder,
    prefix: '/',
    atOnce: true,
    forEver: (path) => path.startsWith('assets/'),
  });
}
