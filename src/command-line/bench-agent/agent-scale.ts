/** A scale as the agent reads it: it is opened again and again until it is stopped. */
import type { ScaleAway } from '../../../shared/contract/scales.js';
import type { Told } from '../../../shared/scales/wire.js';

export interface AgentScale {
  /** What it is, for a person: "/dev/ttyUSB0". */
  readonly label: string;
  /** Reads until it is called off; never fails: what is wrong is told. */
  read(ear: Ear, until: AbortSignal): Promise<void>;
}

/** Who hears a scale: readings and states for programs, sentences for the person who set it up. */
export interface Ear {
  tell(told: Told): void;
  say(sentence: string): void;
}

/** Why a device could not be opened, from what the system said. */
export function troubleOf(error: unknown): ScaleAway {
  const said = error instanceof Error ? error.message : String(error);
  if (/permission|EACCES|EPERM|not permitted/i.test(said)) return 'not_permitted';
  if (/lock|busy|EBUSY|access denied|temporarily unavailable/i.test(said)) return 'in_use';
  return 'unplugged';
}

/** The same for a person, with what to do. */
export function sentenceOf(trouble: ScaleAway, label: string): string {
  switch (trouble) {
    case 'not_permitted':
      return (
        `This user may not open ${label}. On Linux: add the user to the group dialout for a ` +
        'serial scale, or give a udev rule for a USB scale; then sign in anew.'
      );
    case 'in_use':
      return `Another program holds ${label}. Close it there.`;
    case 'not_a_scale':
      return (
        `What ${label} sends is not a scale’s. Check that it is on, and its settings; say them ` +
        'with --line and --speaks.'
      );
    case 'unplugged':
    case 'nobody_there':
    case 'not_supported':
      return `${label} is not there. Plug it in; it is looked for until then.`;
  }
}
