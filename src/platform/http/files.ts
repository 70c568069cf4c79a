/** Serves the files of a folder: only those that are there at the start, from memory once read. */
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { FastifyInstance } from 'fastify';

const kinds: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.txt': 'text/plain; charset=utf-8',
};

/** Kinds that are text, and shrink to a third on the way. */
const shrinks = /^(text\/|image\/svg|application\/(json|manifest))/;
const worthShrinking = 1024;

/** Which files, and how long a browser may keep them. */
export interface FolderOptions {
  readonly folder: string;
  /** Address that the folder stands at, with a slash at its end: "/". */
  readonly prefix: string;
  /** Only these, as paths below the folder; all unless told. */
  readonly only?: readonly string[];
  /** True for files whose name changes with their content. */
  readonly forEver?: (path: string) => boolean;
  /** Read at once: the files belong together, and the folder may be built anew meanwhile. */
  readonly atOnce?: boolean;
}

/** Serves the files; "index.html" also stands for its folder. */
export function serveFolder(server: FastifyInstance, options: FolderOptions): void {
  for (const path of options.only ?? pathsBelow(options.folder)) {
    const file = once(() => readFileSync(join(options.folder, path)));
    if (options.atOnce) file();
    const mark = once(() => `W/"${createHash('sha256').update(file()).digest('base64url')}"`);
    const kind = kinds[extname(path)] ?? 'application/octet-stream';
    const packed = once(() => (shrinks.test(kind) ? smaller(file()) : undefined));
    const keep = options.forEver?.(path) ? 'public, max-age=31536000, immutable' : 'no-cache';
    const addresses = [path, ...(/(^|\/)index\.html$/.test(path) ? [path.slice(0, -10)] : [])];
    for (const address of addresses) {
      server.get(`${options.prefix}${address}`, (request, reply) => {
        void reply.header('Cache-Control', keep).header('ETag', mark());
        if (request.headers['if-none-match'] === mark()) return reply.status(304).send();
        void reply.type(kind);
        const small = packed();
        if (small === undefined) return reply.send(file());
        void reply.header('Vary', 'Accept-Encoding');
        if (!takesGzip(request.headers['accept-encoding'])) return reply.send(file());
        return reply.header('Content-Encoding', 'gzip').send(small);
      });
    }
  }
}

function smaller(file: Buffer): Buffer | undefined {
  return file.length < worthShrinking ? undefined : gzipSync(file, { level: 9 });
}

/** RFC 9110, 12.5.3: named, and not refused by a weight of nought. */
function takesGzip(accepted: string | string[] | undefined): boolean {
  return /\bgzip\b(?!\s*;\s*q=0(\.0*)?\s*(,|$))/.test(String(accepted ?? ''));
}

function pathsBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((path) => statSync(join(folder, path)).isFile())
    .map((path) => relative('', path).split(sep).join('/'));
}

function once<T>(work: () => T): () => T {
  let done: { value: T } | undefined;
  return () => (done ??= { value: work() }).value;
}
