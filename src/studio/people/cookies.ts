/** What a browser is given to hold: cookies that scripts cannot read and other sites cannot use. */
import type { FastifyReply, FastifyRequest } from 'fastify';

/** So long a browser is a device of the studio; browsers keep no cookie longer. */
export const deviceSeconds = 400 * 86_400;

/**
 * What a cookie is called where it came over https: browsers let no page of plain http put one of
 * that name in its place (RFC 6265bis, 4.1.3.2), and the two ways in keep apart who is signed in.
 */
export function overHttps(name: string): string {
  return `__Host-${name}`;
}

/** The cookie of this name, the one from https first. */
export function cookieOf(
  cookies: Readonly<Record<string, string | undefined>> | undefined,
  name: string,
): string | undefined {
  return cookies?.[overHttps(name)] ?? cookies?.[name];
}

/** Gives the browser a cookie for so many seconds; over https it stays on https. */
export function keepCookie(
  request: FastifyRequest,
  reply: FastifyReply,
  name: string,
  value: string,
  maxAge: number,
): void {
  const secure = request.protocol === 'https';
  void reply.setCookie(secure ? overHttps(name) : name, value, {
    httpOnly: true,
    sameSite: 'strict',
    path: '/',
    secure,
    maxAge,
  });
}
