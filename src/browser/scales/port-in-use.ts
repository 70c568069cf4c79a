/** A serial port that the page has opened: bytes in, text out, closed without leaving locks. */
import type { PortOfPage, SerialSettings } from './devices.js';

export class PortInUse {
  private closing = false;
  private reader: ReadableStreamDefaultReader<Uint8Array> | undefined;
  private reading: Promise<void> = Promise.resolve();
  private writer: WritableStreamDefaultWriter<Uint8Array> | undefined;

  private constructor(private readonly port: PortOfPage) {
    this.writer = port.writable?.getWriter();
  }

  /** @throws DOMException of the browser when it cannot be opened */
  static async open(port: PortOfPage, settings: SerialSettings): Promise<PortInUse> {
    await port.open(settings);
    return new PortInUse(port);
  }

  /** Hears bytes until the port is closed or, with `broken`, gone. */
  listen(hear: (bytes: Uint8Array) => void, broken: () => void): void {
    this.reading = this.readOn(hear).then(() => {
      if (!this.closing) broken();
    });
  }

  /** Sends text, one byte a character; a port that is gone is told by `listen`. */
  write(text: string): void {
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    this.writer?.write(bytes).catch(() => undefined);
  }

  async close(): Promise<void> {
    this.closing = true;
    await this.reader?.cancel().catch(() => undefined);
    await this.reading;
    this.writer?.releaseLock();
    this.writer = undefined;
    await this.port.close().catch(() => undefined);
  }

  /** A framing error ends one stream and the port gives another; a lost port gives none. */
  private async readOn(hear: (bytes: Uint8Array) => void): Promise<void> {
    while (this.port.readable && !this.closing) {
      this.reader = this.port.readable.getReader();
      try {
        for (;;) {
          const { value, done } = await this.reader.read();
          if (done) return;
          hear(value);
        }
      } catch {
        // told by the port: readable is null when it is gone
      } finally {
        this.reader.releaseLock();
      }
    }
  }
}
