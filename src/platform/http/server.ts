/** Puts a module behind Fastify: ids, cookies, logging, problems, the OpenAPI. */
import cookies from '@fastify/cookie';
import type { DynamicModule } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { FastifyAdapter, type NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Logger } from 'pino';
import { logRequests, requestId } from './log.js';
import { serveOpenApi } from './openapi.js';
import { serveTrust, type Tablets } from '../https/trust-files.js';
import { servePage } from './page.js';

/** What a server is opened with besides its module. */
export interface ServerOptions {
  readonly log: Logger;
  /** Certificate and key in PEM, for https. */
  readonly tls?: { readonly cert: Buffer; readonly key: Buffer };
  /** Folder of the built page, served at "/". */
  readonly page?: string;
  /** How tablets come in over https, once they can. */
  readonly tablets?: Tablets;
}

const largestBody = 4 * 1024 * 1024;

/** The application, initialised, not yet listening. @throws Error when a route has no right */
export async function openServer(
  module: DynamicModule,
  options: ServerOptions,
): Promise<NestFastifyApplication> {
  const adapter = new FastifyAdapter({
    genReqId: requestId,
    bodyLimit: largestBody,
    forceCloseConnections: 'idle',
    routerOptions: { maxParamLength: 200 },
    ...(options.tls ? { https: options.tls } : {}),
  });
  const app = await NestFactory.create<NestFastifyApplication>(module, adapter, {
    logger: false,
    abortOnError: false,
  });
  await app.register(cookies);
  takeText(app);
  logRequests(app.getHttpAdapter().getInstance(), options.log);
  serveOpenApi(app);
  if (options.tablets) serveTrust(app.getHttpAdapter().getInstance(), options.tablets);
  if (options.page !== undefined) servePage(app.getHttpAdapter().getInstance(), options.page);
  await app.init();
  await app.getHttpAdapter().getInstance().ready();
  return app;
}

/** A file sent as it is, is read as {"text": …}. */
function takeText(app: NestFastifyApplication): void {
  app
    .getHttpAdapter()
    .getInstance()
    .addContentTypeParser(
      ['text/calendar', 'text/csv'],
      { parseAs: 'string' },
      (_request, text, done) => done(null, { text }),
    );
}
