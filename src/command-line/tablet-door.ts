/** The way in for tablets while `serve` runs: opened, told on the terminal, closed. */
import { openForTablets } from '../platform/https/for-tablets.js';
import type { HttpsDoor } from '../platform/https/https-door.js';
import type { WayForTablets } from '../platform/https/trust-files.js';
import type { Settings } from '../platform/settings.js';
import type { Service } from '../service.js';
import { ScalesGateway } from '../studio/scales/scales.gateway.js';

export class TabletDoor {
  private door: HttpsDoor | undefined;

  constructor(
    private readonly service: Service,
    private readonly settings: Settings,
  ) {}

  /**
   * Opens it. Where nobody asked for a port and it cannot be opened, the service runs without.
   * @returns why it is not open, in a sentence; undefined when it is, or is not wanted
   * @throws Error with a sentence where a port was asked for and cannot be had
   */
  async open(): Promise<string | undefined> {
    const { service, settings } = this;
    const server = service.app.getHttpAdapter().getInstance();
    try {
      this.door = await openForTablets(server, { ...service, settings });
    } catch (error) {
      if (settings.httpsPort !== 'beside') throw error;
      return `No https for tablets. ${error instanceof Error ? error.message : String(error)}`;
    }
    if (this.door) service.app.get(ScalesGateway).listenOn(this.door.server);
    return undefined;
  }

  async close(): Promise<void> {
    await this.door?.close();
  }
}

/**
 * What a person at the terminal is told about it; with a code to photograph where they look.
 * @param toBecomeDevice what makes the tablet a device: "#device=…", or nothing; it stays behind
 *   the "#", so that it does not travel over plain http
 */
export async function tabletLines(
  way: WayForTablets | undefined,
  toBecomeDevice: string,
  watched: boolean,
): Promise<string[]> {
  const [url, ...others] = way?.urls ?? [];
  if (way === undefined || url === undefined) return [];
  const first = url.replace(/^https:/, 'http:');
  const lines = [
    `  tablets  ${url}`,
    ...others.map((other) => `           or ${other}`),
    `           The first time open ${first} there: it says how to trust this computer.`,
    `           Root certificate, SHA-256: ${way.rootFingerprint.slice(0, 47)}`,
    `           ${way.rootFingerprint.slice(48)}`,
  ];
  if (!watched) return lines;
  return [
    ...lines,
    '           Or photograph this code:',
    ...(await code(`${first}/${toBecomeDevice}`)),
  ];
}

/** White blocks on black, whatever the terminal wears: so a camera reads it. */
async function code(text: string): Promise<string[]> {
  const { renderUnicodeCompact } = await import('uqr');
  const drawn = renderUnicodeCompact(text, { ecc: 'L', border: 2 });
  return drawn.split('\n').map((row) => `           \u001b[97;40m${row}\u001b[0m`);
}
