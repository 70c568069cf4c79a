/** Who may call what: every route names the least role that may, or says that it is open. */
import { SetMetadata, type CustomDecorator } from '@nestjs/common';

/** Roles, each with all rights of those before it. */
export const roles = ['bench', 'stylist', 'manager', 'owner'] as const;
export type Role = (typeof roles)[number];

/** Who is asking: a program or device by its token, or a person who signed in on a device. */
export interface Caller {
  readonly studioId: string;
  readonly role: Role;
  /** The person who signed in; a program or a bench alone is nobody in particular. */
  readonly personId: string | undefined;
  /** The bench that the device stands at, where it has one. */
  readonly benchId: string | undefined;
  /** The token of the program or device. */
  readonly tokenId: string;
  /** Shown in trails: the person's name, else the token's. */
  readonly name: string;
}

/** Finds out who is asking; the capability that keeps people provides it. */
export abstract class Callers {
  /** Undefined when nobody is signed in and no token is sent. */
  abstract find(request: IncomingRequest): Promise<Caller | undefined>;
}

/** What of a request tells who is asking. */
export interface IncomingRequest {
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly cookies?: Readonly<Record<string, string | undefined>>;
}

export const RIGHT = 'bowlworth:right';
export const OPEN = 'open';

/** The least role that may call this route; required on every route, or on its controller. */
export function Right(role: Role): CustomDecorator {
  return SetMetadata(RIGHT, role);
}

/** A route for anybody, signed in or not. */
export function Open(): CustomDecorator {
  return SetMetadata(RIGHT, OPEN);
}

/** True when `caller` has at least the rights of `role`. */
export function mayAct(caller: { readonly role: Role }, role: Role): boolean {
  return roles.indexOf(caller.role) >= roles.indexOf(role);
}

/** Names of the roles that may do what needs `role`, for a sentence. */
export function whoMay(role: Role): string {
  const able = roles.slice(roles.indexOf(role));
  return able.length === 1 ? `the ${able[0]}` : `${able.slice(0, -1).join(', ')} or ${able.at(-1)}`;
}
