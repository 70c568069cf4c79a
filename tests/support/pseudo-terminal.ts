/** A pseudo-terminal of the system that a test plays a serial scale on. */
import { spawn, type ChildProcessWithoutNullStreams } from 'node:child_process';
import { once } from 'node:events';

/**
 * `script` (util-linux; on every Debian) opens a pseudo-terminal and joins it to its own input
 * and output. The shell inside says which one it is and keeps it open; the agent opens the same
 * one as its serial port, and what a scale would send or receive goes through script's pipes.
 */
export class PseudoTerminal {
  /** All that the other side has written, one character a byte. */
  received = '';
  private hear: (text: string) => void = () => undefined;

  private constructor(
    /** "/dev/pts/3" */
    readonly path: string,
    private readonly child: ChildProcessWithoutNullStreams,
  ) {
    child.stdin.on('error', () => undefined); // said into a terminal that has gone away
    child.stdout.on('data', (bytes: Buffer) => {
      const text = bytes.toString('latin1');
      this.received += text;
      this.hear(text);
    });
  }

  static async open(): Promise<PseudoTerminal> {
    const keepOpen = 'stty raw -echo; tty; exec sleep 600';
    const words = ['--quiet', '--flush', '--command', keepOpen, '/dev/null'];
    const child = spawn('script', words, { env: { ...process.env, SHELL: '/bin/sh' } });
    let said = '';
    for await (const bytes of child.stdout.iterator({ destroyOnReturn: false })) {
      said += (bytes as Buffer).toString('latin1');
      const path = /\/dev\/pts\/\d+/.exec(said)?.[0];
      if (path !== undefined && said.includes('\n')) return new PseudoTerminal(path, child);
    }
    throw new Error(`script(1) of util-linux opened no pseudo-terminal: ${said}`);
  }

  /** The scale sends this. */
  send(text: string | Uint8Array): void {
    if (!this.child.stdin.writable) return;
    this.child.stdin.write(typeof text === 'string' ? Buffer.from(text, 'latin1') : text);
  }

  /** Called with whatever the other side writes. */
  onReceived(hear: (text: string) => void): void {
    this.hear = hear;
  }

  /** The scale is unplugged: the terminal goes away. */
  async close(): Promise<void> {
    if (this.child.exitCode !== null || this.child.signalCode !== null) return;
    const end = once(this.child, 'close');
    this.child.kill('SIGKILL');
    await end;
  }
}
