/** Reads bodies and query parameters into their classes; every error is told, with its pointer. */
import { Injectable, type ArgumentMetadata, type PipeTransform } from '@nestjs/common';
import { validateSync, type ValidationError } from 'class-validator';
import { readObject, rulesOf, type RequestClass } from './request-class.js';
import { MalformedRequest, pointerStep, Unreadable, type FieldError } from './unreadable.js';

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
  const request = readObject(type, value);
  if (!(request instanceof type)) throw new MalformedRequest([notAnObject]);
  const errors = validateSync(request, {
    whitelist: true,
    forbidNonWhitelisted: true,
    forbidUnknownValues: true,
    stopAtFirstError: true,
  });
  if (errors.length > 0) throw new MalformedRequest(errors.flatMap((error) => told(error)));
  return request;
}

const notAnObject = { pointer: '', code: 'not_an_object', detail: 'Give an object in braces.' };

/** Words of class-validator's constraints in our codes; others keep their own. */
const codes: Record<string, string> = {
  readable: 'missing',
  isObject: 'not_an_object',
  nestedValidation: 'not_an_object',
  isArray: 'not_a_list',
  arrayMinSize: 'too_few',
  arrayMaxSize: 'too_many',
};

function told(error: ValidationError, above = ''): FieldError[] {
  const pointer = `${above}${pointerStep(error.property)}`;
  const inside = (error.children ?? []).flatMap((child) => told(child, pointer));
  if (inside.length > 0) return inside;
  const value: unknown = error.value;
  if (value instanceof Unreadable) {
    return [{ pointer: `${pointer}${value.pointer}`, code: value.code, detail: value.detail }];
  }
  return Object.entries(error.constraints ?? {}).map(([name, sentence]) =>
    name === 'whitelistValidation'
      ? unknownField(error.property, pointer)
      : value === undefined
        ? { pointer, code: 'missing', detail: 'This field is needed.' }
        : { pointer, code: codes[name] ?? name, detail: sentence },
  );
}

function unknownField(name: string, pointer: string): FieldError {
  return {
    pointer,
    code: 'unknown_field',
    detail: `There is no field "${name}" here. Leave it out, or look at /api for its name.`,
  };
}
