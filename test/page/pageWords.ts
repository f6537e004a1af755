import type { Page } from 'playwright-core';

/** What a page says of itself wherever it is open: its headings and the names of its buttons that are always there. */
export async function pageWords(page: Page): Promise<string> {
  const words = await page
    .locator('h1, h2, .who label.button, .what button.main, .saving button, footer button')
    .allInnerTexts();
  return words.map((one) => one.replace(/\s+/g, ' ').trim()).join(' · ');
}
