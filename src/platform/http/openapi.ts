/** The OpenAPI 3.1 document of the service, and the page to browse it. */
import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { OpenAPIObject } from '@nestjs/swagger';
import { describedCalls, schemaOf } from './answers.js';
import { serveFolder } from './files.js';
import { requestClasses, type FieldRule } from './request-class.js';

type Swagger = typeof import('@nestjs/swagger');

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

/** Works the document out from the controllers. The library is loaded when it is first needed. */
export async function openApiDocument(app: NestFastifyApplication): Promise<OpenAPIObject> {
  const swagger = await import('@nestjs/swagger');
  describe(swagger);
  const frame = new swagger.DocumentBuilder()
    .setOpenAPIVersion('3.1.0')
    .setTitle('Bowlworth')
    .setDescription('Bowls of colour: weighed, deducted, priced, forecast.')
    .setVersion('1')
    .addBearerAuth({ type: 'http', scheme: 'bearer' }, 'token')
    .addCookieAuth('bowlworth_session', { type: 'apiKey', in: 'cookie' }, 'session')
    .addSecurityRequirements('token')
    .addSecurityRequirements('session')
    .build();
  const document = swagger.SwaggerModule.createDocument(app, frame);
  document.components = {
    ...document.components,
    schemas: { ...document.components?.schemas, Problem: problemSchema },
  };
  for (const path of Object.values(document.paths)) {
    for (const operation of Object.values(path as Record<string, { responses?: object }>)) {
      operation.responses = { ...operation.responses, default: refusal };
    }
  }
  return document;
}

const refusal = {
  description: 'Refused, or failed: a problem detail (RFC 9457).',
  content: { 'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } } },
};

let isDescribed = false;

/** Tells the library what the decorators of fields.ts and answers.ts have noted down. */
function describe(swagger: Swagger): void {
  if (isDescribed) return;
  isDescribed = true;
  for (const [prototype, rules] of requestClasses()) {
    for (const rule of rules) swagger.ApiProperty(propertyOf(rule))(prototype, rule.name);
  }
  const { calls, tags } = describedCalls();
  for (const [type, name] of tags) swagger.ApiTags(name)(type as () => void);
  for (const { prototype, method, description } of calls) {
    const { summary, status = 200, example, csv, pdf } = description;
    const content = {
      ...(example === undefined
        ? {}
        : { 'application/json': { schema: schemaOf(description), example } }),
      ...(csv === undefined ? {} : { 'text/csv': { schema: { type: 'string' }, example: csv } }),
      ...(pdf ? { 'application/pdf': { schema: { type: 'string', format: 'binary' } } } : {}),
    };
    const response = {
      ...{ status, description: summary },
      ...(Object.keys(content).length === 0 ? {} : { content }),
    };
    const descriptor = Object.getOwnPropertyDescriptor(prototype, method) ?? {};
    swagger.ApiOperation({ summary })(prototype, method, descriptor);
    swagger.ApiResponse(response as Parameters<Swagger['ApiResponse']>[0])(
      prototype,
      method,
      descriptor,
    );
  }
}

function propertyOf({ holds, schema, optional }: FieldRule): Parameters<Swagger['ApiProperty']>[0] {
  const presence = { ...schema, required: !optional };
  const type = 'part' in holds ? { type: holds.part } : {};
  const list = 'parts' in holds ? { type: holds.parts, isArray: true } : {};
  return { ...presence, ...type, ...list };
}

/** Serves the document at /api/v1/openapi.json and a page to browse it at /api. */
export function serveOpenApi(app: NestFastifyApplication): void {
  const server = app.getHttpAdapter().getInstance();
  let document: Promise<OpenAPIObject> | undefined;
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
