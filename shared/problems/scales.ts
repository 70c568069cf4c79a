/** Refusals of scales: who may bring readings of a bench, and who may hear them. */
import { refusal } from './refusal.js';

export const scaleProblems = {
  other_bench: refusal<Record<string, never>>(
    'forbidden',
    'Another bench',
    () =>
      'This token stands at another bench. Use a token of this bench, or one that has no bench.',
  ),
  foreign_page: refusal<{ origin: string }>(
    'forbidden',
    'A page from elsewhere',
    ({ origin }) => `A page of ${origin} may not hear this scale. Open the page of this service.`,
  ),
  only_programs_bring: refusal<Record<string, never>>(
    'forbidden',
    'Readings come from a program',
    () => 'Readings are brought by the bench agent with a token of its own, not by a person.',
  ),
  no_subprotocol: refusal<{ brings: string; hears: string }>(
    'malformed',
    'Not said what for',
    ({ brings, hears }) =>
      `Open a WebSocket with the subprotocol ${brings} to bring readings, or ${hears} to hear ` +
      'them.',
  ),
};
