/** What a browser says when a device cannot be had, as one of the troubles of a source. */
import { ScaleTrouble, type Trouble } from './source.js';

/** No way to such a device: the browser has none, or keeps it from pages that are not secure. */
export function noWay(): ScaleTrouble {
  return new ScaleTrouble(isSecureContext ? 'not_supported' : 'not_secure');
}

/** Why the person did not get to choose. */
export function choosingTrouble(error: unknown): ScaleTrouble {
  return new ScaleTrouble(nameOf(error) === 'NotFoundError' ? 'not_chosen' : 'not_permitted');
}

/**
 * Why a chosen device did not open. WebHID says NotAllowedError and Web Serial NetworkError
 * whatever the reason is: mostly, another program holds it.
 */
export function openingTrouble(error: unknown): ScaleTrouble {
  const troubles: Readonly<Record<string, Trouble>> = {
    SecurityError: 'not_permitted',
    NotFoundError: 'unplugged',
  };
  return new ScaleTrouble(troubles[nameOf(error)] ?? 'in_use');
}

function nameOf(error: unknown): string {
  return error instanceof DOMException ? error.name : '';
}
