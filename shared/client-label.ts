/** What a client is called where the whole name must not, or cannot, be shown. */

/** "client 0192": what the ledger goes on saying when a client is forgotten. */
export function clientNumberLabel(number: number): string {
  return `client ${number.toString().padStart(4, '0')}`;
}

/** The name, or the number's label where there is no name. */
export function clientLabel(client: { number: number; name: string | null }): string {
  return client.name ?? clientNumberLabel(client.number);
}

/**
 * First name and initial, for a screen that others can see: "Ada Maria Brook" -> "Ada B.";
 * a single name stays as it is, no name is the number's label.
 */
export function shortClientLabel(client: { number: number; name: string | null }): string {
  const words = client.name?.trim().split(/\s+/) ?? [];
  const [first, ...rest] = words;
  if (!first) return clientNumberLabel(client.number);
  const [initial] = rest.at(-1) ?? '';
  return initial === undefined ? first : `${first} ${initial.toLocaleUpperCase()}.`;
}
