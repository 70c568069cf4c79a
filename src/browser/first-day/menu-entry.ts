/** Enters services and purposes one after the other; what is entered is there, whatever follows. */
import { uuidv7 } from 'uuidv7';
import { canonical } from '../../../shared/decimal.js';
import { send } from '../api/calls.js';
import { usualServices, type Wanted } from './menu.js';
import { readMoney } from './read-words.js';
import { words } from './texts.js';

/** Sends them. @throws Error with a sentence; all prices are read before anything is sent */
export async function enterMenu(
  wanted: readonly Wanted[],
  prices: Readonly<Record<string, string>>,
): Promise<void> {
  const bodies = wanted.map(({ name, isService }) =>
    isService ? serviceOf(name, prices[name] ?? '') : { id: uuidv7(), name },
  );
  for (const [at, { isService }] of wanted.entries()) {
    await send('POST', isService ? '/services' : '/purposes', bodies[at]);
  }
}

/** A service without a price is entered at 0, which the menu shows as no price yet. */
function serviceOf(name: string, typed: string) {
  const price = typed.trim() === '' ? '0' : readMoney(typed);
  if (!price) throw new Error(words.menu.priceWrong(name, typed));
  const usual = usualServices.find((each) => each.name === name);
  const { handsOnMinutes = 60, chairMinutes = 90 } = usual ?? {};
  const amount = typeof price === 'string' ? price : canonical(price);
  return { id: uuidv7(), name, price: amount, handsOnMinutes, chairMinutes };
}
