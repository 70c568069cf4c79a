/** What a person does at a bench's page, in few words: taps, reads, sets down on the scale. */
import type { Page } from 'playwright-core';

/** A page and the hand in front of it. */
export interface AtThePage {
  readonly page: Page;
  /** Taps a key by its whole text. */
  tap(name: string): Promise<void>;
  /** Follows a line that leads to another page. */
  follow(name: string | RegExp): Promise<void>;
  /** Waits until this can be read. */
  read(text: string | RegExp): Promise<void>;
  /** Sets so many grams down on the practice scale. */
  setDown(grams: number): Promise<void>;
  /** Plans a bowl of 1 : 2 blonding powder, off the scalp; the plan page is open. */
  plan(purpose: string, grams: number): Promise<void>;
  /** Waits until what comes next is a pour of its own and no drip: 3 s. */
  drips(): Promise<void>;
}

/** The person at this page. */
export function atThePage(page: Page): AtThePage {
  const tap = (name: string) => page.getByRole('button', { name, exact: true }).click();
  return {
    page,
    tap,
    follow: (name) => page.getByRole('link', { name }).first().click(),
    read: (text) => page.getByText(text).first().waitFor(),
    setDown: async (grams) => {
      await page.getByRole('textbox', { name: 'Weight to set down' }).fill(`${grams}`);
      await tap('Set this down');
    },
    plan: async (purpose, grams) => {
      await page.getByRole('combobox', { name: 'Add a product' }).first().click();
      await page.keyboard.type('blond');
      await page.getByRole('option', { name: /Blonding powder/ }).click();
      await page.getByRole('textbox', { name: 'Size in g' }).fill(`${grams}`);
      await page.getByRole('combobox', { name: 'Purpose' }).fill(purpose);
      await page.keyboard.press('Escape');
      await page.getByText('off the scalp').click();
    },
    drips: () => page.waitForTimeout(3100),
  };
}
