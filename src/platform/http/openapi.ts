/** The OpenAPI 3.1 document of the service, and the page to browse it. */
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { DocumentBuilder, SwaggerModule, type OpenAPIObject } from '@nestjs/swagger';
import { serveFolder } from './files.js';

const problemSchema = {
  type: 'object',
  required: ['type', 'title', 'status', 'detail', 'requestId', 'facts', 'errors'],
  properties: {
    type: { type: 'string', example: '/problems/not_found' },
    title: { type: 'string' },
    status: { type: 'integer' },
    detail: { type: 'string', description: 'A sentence a person can act on.' },
    requestId: { type: 'string' },
    facts: { type: 'object', additionalProperties: true },
    errors: {
      type: 'array',
      items: {
        type: 'object',
        required: ['pointer', 'code', 'detail'],
        properties: {
          pointer: { type: 'string', description: 'JSON pointer (RFC 6901) into the request' },
          code: { type: 'string' },
          detail: { type: 'string' },
        },
      },
    },
  },
};

/** Works the document out from the controllers; done when it is first asked for. */
export function openApiDocument(app: NestFastifyApplication): OpenAPIObject {
  const frame = new DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Bowlworth')
    .setDescription('Bowls of colour: weighed, deducted, priced, forecast.')
    .setVersion('1')
    .addBearerAuth({ type: 'http', scheme: 'bearer' }, 'token')
    .addCookieAuth('bowlworth_session', { type: 'apiKey', in: 'cookie' }, 'session')
    .addSecurityRequirements('token')
    .addSecurityRequirements('session')
    .build();
  const document = SwaggerModule.createDocument(app, frame);
  document.components = {
    ...document.components,
    schemas: { ...document.components?.schemas, Problem: problemSchema },
  };
  for (const path of Object.values(document.paths)) {
    for (const operation of Object.values(path as Record<string, { responses?: object }>)) {
      operation.responses = {
        ...operation.responses,
        default: {
          description: 'Refused, or failed: a problem detail (RFC 9457).',
          content: {
            'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
          },
        },
      };
    }
  }
  return document;
}

/** Serves the document at /api/v1/openapi.json and a page to browse it at /api. */
export function serveOpenApi(app: NestFastifyApplication): void {
  const server = app.getHttpAdapter().getInstance();
  let document: OpenAPIObject | undefined;
  server.get('/api/v1/openapi.json', () => (document ??= openApiDocument(app)));
  server.get('/api', (_, reply) => reply.type('text/html; charset=utf-8').send(browsingPage));
  const pages = dirname(createRequire(swaggerPackage).resolve('swagger-ui-dist/package.json'));
  serveFolder(server, {
    folder: pages,
    prefix: '/api/page/',
    only: ['swagger-ui.css', 'swagger-ui-bundle.js'],
  });
}

/** The pages come with this package; they are read from there, whoever installed them where. */
const swaggerPackage = import.meta.resolve('@nestjs/swagger');

const browsingPage = `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8">
    <title>Bowlworth: calls</title>
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <link rel="stylesheet" href="/api/page/swagger-ui.css">
  </head>
  <body>
    <main id="calls"></main>
    <script src="/api/page/swagger-ui-bundle.js"></script>
    <script>
      SwaggerUIBundle({ url: '/api/v1/openapi.json', dom_id: '#calls', deepLinking: true });
    </script>
  </body>
</html>
`;
