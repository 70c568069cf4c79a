/** What a browser is given to hold: cookies that scripts cannot read and other sites cannot use. */
import type { FastifyReply, FastifyRequest } from 'fastify';

/** So long a browser is a device of the studio; browsers keep no cookie longer. */
export const deviceSeconds = 400 * 86_400;

/** Gives the browser a cookie for so many seconds; over https it stays on https. */
export function keepCookie(
  request: FastifyRequest,
  reply: FastifyReply,
  name: string,
  value: string,
  maxAge: number,
): void {
  const secure = request.protocol === 'https';
  void reply.setCookie(name, value, {
    httpOnly: true,
    sameSite: 'strict',
    path: '/',
    secure,
    maxAge,
  });
}
