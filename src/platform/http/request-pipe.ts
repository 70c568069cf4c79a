/** Reads requests strictly: unknown fields refused, every error told with its JSON pointer. */
import { ValidationPipe } from '@nestjs/common';
import type { ValidationError } from 'class-validator';
import { MalformedRequest, pointerStep, Unreadable, type FieldError } from './unreadable.js';

/** Words of class-validator's constraints in our codes; others keep their own. */
const codes: Record<string, string> = {
  whitelistValidation: 'unknown_field',
  isObject: 'not_an_object',
  nestedValidation: 'not_an_object',
  isArray: 'not_a_list',
  arrayMinSize: 'too_few',
  arrayMaxSize: 'too_many',
};

/** The pipe for bodies and query parameters that are classes of decorated fields. */
export class RequestPipe extends ValidationPipe {
  constructor() {
    super({
      transform: true,
      whitelist: true,
      forbidNonWhitelisted: true,
      forbidUnknownValues: true,
      stopAtFirstError: true,
      exceptionFactory: (errors) => new MalformedRequest(errors.flatMap((error) => told(error))),
    });
  }
}

function told(error: ValidationError, above = ''): FieldError[] {
  const pointer = `${above}${pointerStep(error.property)}`;
  const inside = (error.children ?? []).flatMap((child) => told(child, pointer));
  if (inside.length > 0) return inside;
  const value: unknown = error.value;
  if (value instanceof Unreadable) {
    return [{ pointer: `${pointer}${value.pointer}`, code: value.code, detail: value.detail }];
  }
  return Object.entries(error.constraints ?? {}).map(([name, sentence]) => ({
    pointer,
    code: name === 'readable' ? 'missing' : (codes[name] ?? name),
    detail:
      name === 'whitelistValidation'
        ? `There is no field "${error.property}" here. Leave it out, or look at /api for its name.`
        : sentence,
  }));
}
