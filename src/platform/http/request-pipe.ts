/** Reads bodies and query parameters into their classes; every error is told, with its pointer. */
import { Injectable, type ArgumentMetadata, type PipeTransform } from '@nestjs/common';
import { readObject, rulesOf, type RequestClass } from './request-class.js';
import { MalformedRequest, type FieldError } from './unreadable.js';

@Injectable()
export class RequestPipe implements PipeTransform {
  transform(value: unknown, { metatype, type }: ArgumentMetadata): unknown {
    if (type === 'custom' || metatype === undefined) return value;
    const known = metatype as RequestClass;
    return rulesOf(known).size === 0 ? value : readRequest(known, value ?? {});
  }
}

/**
 * Reads a JSON object as strictly as one that arrives.
 * @throws Problem `malformed_request` with every error (MalformedRequest)
 */
export function readRequest<T extends object>(type: RequestClass<T>, value: unknown): T {
  const errors: FieldError[] = [];
  const request = readObject(type, value, '', errors);
  if (errors.length > 0) throw new MalformedRequest(errors);
  return request;
}
