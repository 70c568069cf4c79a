/** Reads an id in an address, as in /bowls/{id}. */
import { Param, type PipeTransform } from '@nestjs/common';
import { readId } from './reading.js';
import { MalformedRequest, pointerStep, Unreadable } from './unreadable.js';

class IdPipe implements PipeTransform<string, string> {
  constructor(private readonly name: string) {}

  transform(value: string): string {
    const id = readId(value);
    if (!(id instanceof Unreadable)) return id;
    const { code, detail } = id;
    throw new MalformedRequest([{ pointer: pointerStep(this.name), code, detail }]);
  }
}

/** The id of the thing that the address names: `@PathId() id: string`. */
export function PathId(name = 'id'): ParameterDecorator {
  return Param(name, new IdPipe(name));
}
