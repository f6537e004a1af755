import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import {
  direct,
  inverse,
  joinRoutes,
  offsetRoute,
  pointAt,
  type Route,
  type RouteRecipe,
  reverseRoute,
  routeFromLine,
  routeFromRecipe,
  sliceRoute,
  writeGpx,
} from 'datumline';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { executablePath, keptText, launchBrowser, type OpenedPage, openPage } from '../openPage';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** A place of no note, where the map is to look. */
const middle = [5.2, 60.1];

/** Where the points of the line are clicked, screen elements from the upper left corner of the map. */
const clicks = [
  [80, 60],
  [200, 60],
  [300, 90],
  [380, 90],
  [380, 160],
  [300, 200],
  [220, 200],
  [140, 200],
  [80, 180],
  [60, 140],
  [60, 100],
];

/** The line in the file that "Save the line" gives. */
async function saved(page: Page, press: () => Promise<void>): Promise<string> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return readFileSync(await download.path(), 'utf8');
}

describe.skipIf(!executablePath)('a line drawn in a browser', () => {
  let browser: Browser;
  let byMouse: OpenedPage;
  /** What the mouse drew, as it was saved. */
  let drawn = '';
  let recipe: RouteRecipe;

  beforeAll(async () => {
    browser = await launchBrowser();
    byMouse = await openPage(browser, { width: 1600, height: 1300 });
  }, 60_000);
  afterAll(() => browser?.close());

  test('by mouse: 12 points, a leg beside its line, a round corner, 2 laps, 3 sections', async () => {
    const { page, complaints } = byMouse;
    const desk = page.locator('.line-desk');
    const row = (number: number) => desk.locator('.legs button.leg').nth(number - 1);
    const choose = (name: string) => desk.getByLabel(name, { exact: true }).check();
    const type = async (name: string, value: string) => {
      await desk.locator('.leg-open').getByLabel(name, { exact: false }).first().fill(value);
      await page.keyboard.press('Enter');
    };
    await desk.locator('.go-to').getByLabel('Longitude').fill(String(middle[0]));
    await desk.locator('.go-to').getByLabel('Latitude').fill(String(middle[1]));
    await desk.getByRole('button', { name: 'Show this place' }).click();
    const frame = desk.locator('.line-map-frame');
    /** Where a place of the map is on the screen now: what is clicked elsewhere may scroll the page. */
    const onScreen = async ([right, down]: number[]) => {
      await frame.scrollIntoViewIfNeeded();
      const box = (await frame.boundingBox())!;
      return [box.x + right, box.y + down] as const;
    };
    const click = async (at: number[]) => page.mouse.click(...(await onScreen(at)));
    const drag = async (from: number[], to: number[]) => {
      await page.mouse.move(...(await onScreen(from)));
      await page.mouse.down();
      await page.mouse.move(...(await onScreen([(from[0] + to[0]) / 2, from[1]])));
      await page.mouse.move(...(await onScreen(to)));
      await page.mouse.up();
    };
    for (const at of clicks) await click(at);

    // where they came to lie: about the middle of the map, 2 km across it, north up
    const { width, height } = (await frame.boundingBox())!;
    const metre = width / 2000;
    const first = JSON.parse(await saved(page, () => desk.getByRole('button', { name: 'Save the line' }).click()));
    expect(first.steps).toHaveLength(clicks.length);
    for (const [i, [right, down]] of clicks.entries()) {
      const [east, north] = [(right - width / 2) / metre, (height / 2 - down) / metre];
      const { position } = direct(middle, (Math.atan2(east, north) * 180) / Math.PI, Math.hypot(east, north));
      expect(first.steps[i].position[0]).toBeCloseTo(position[0], 4);
      expect(first.steps[i].position[1]).toBeCloseTo(position[1], 4);
    }

    await choose('Move points');
    // a point dragged, and one put into an edge
    await drag([380, 160], [400, 170]);
    await drag([140, 60], [140, 40]);
    await expect.poll(() => desk.locator('.legs > ol > li').count()).toBe(12);

    await choose('Cut into sections');
    for (const at of [
      [200, 60],
      [400, 170],
      [140, 200],
    ])
      await click(at);
    await expect.poll(() => desk.locator('.legs > ol > li').count()).toBe(15);

    await row(5).click(); // the leg to the third point, counted with the section before it
    await desk.getByRole('button', { name: 'Run beside this leg' }).click();
    await type('Distance beside the line', '3.5');
    await desk.locator('.leg-open').getByLabel('Side of the line').selectOption('left');
    await row(6).click();
    await type('Radius of the corner here', '8');
    await row(13).click();
    await type('So many rows', '2');
    await desk.getByRole('button', { name: 'Make laps' }).click();
    drawn = await saved(page, () => desk.getByRole('button', { name: 'Save the line' }).click());
    recipe = JSON.parse(drawn);
    const route = routeFromRecipe(recipe);
    expect(recipe.steps.filter(({ call }) => call === 'section')).toHaveLength(3);
    expect(route.sections.map(({ name }) => name)).toEqual(['section 1', 'section 2', 'section 3']);
    expect(route.laps).toMatchObject([{ count: 2 }]);
    expect(route.arcs.some(({ radius }) => Math.abs(radius - 8) < 1e-6)).toBe(true);
    expect(
      recipe.steps.filter((step) => step.call === 'follow' && step.side === 'left' && step.metres === 3.5),
    ).toHaveLength(1);
    // built beside the page, so told a moment after
    await expect.poll(() => desk.locator('.told strong').textContent()).toBe(`${route.length.toFixed(1)} m`);
    expect(complaints).toEqual([]);
  }, 60_000);

  test('undone back to nothing, and all of it done again', async () => {
    const { page } = byMouse;
    const desk = page.locator('.line-desk');
    const [undo, redo] = ['Undo', 'Redo'].map((name) => desk.getByRole('button', { name, exact: true }));
    let steps = 0;
    while (await undo.isEnabled()) {
      await undo.click();
      steps++;
    }
    expect(steps).toBeGreaterThan(18);
    await expect.poll(() => desk.locator('.legs > ol > li').count()).toBe(0);
    await expect.poll(() => desk.locator('.told').textContent()).toContain('Nothing is drawn yet');
    while (await redo.isEnabled()) {
      await redo.click();
      steps--;
    }
    expect(steps).toBe(0);
    expect(await saved(page, () => desk.getByRole('button', { name: 'Save the line' }).click())).toBe(drawn);
  }, 60_000);

  test('no serious barrier for those who see or point otherwise, with a row open', async () => {
    const { page } = byMouse;
    await page.locator('.line-desk .legs button.leg').nth(1).click();
    expect(await barriers(page)).toEqual([]);
    await byMouse.page.context().close();
  }, 60_000);

  test('by keyboard alone: the identical recipe', async () => {
    const { page, complaints } = await openPage(browser, { width: 1600, height: 1300 });
    await page.waitForSelector('.line-map-frame canvas');
    const keys = page.keyboard;
    /** Goes on with Tab until what has the focus bears a name, as a reader of the screen says it. */
    const tabTo = async (name: string, back: 'forth' | 'back' = 'forth') => {
      for (let press = 0; press < 400; press++) {
        await keys.press(back === 'forth' ? 'Tab' : 'Shift+Tab');
        const named = await page.evaluate<string>(`{
          const at = document.activeElement;
          const text = (at.labels?.[0] ?? at).textContent;
          (at.closest('.go-to') ? 'look: ' : '') + (at.closest('form.add') ? 'add: ' : '') + text
        }`);
        if (named.startsWith(name)) return;
      }
      throw new Error(`Tab never comes to ${name}.`);
    };
    const put = async (name: string, value: string | number, back?: 'back') => {
      await tabTo(name, back);
      await keys.press('Control+A');
      await keys.type(String(value));
    };
    /** Opens a row of the list by its number, as it stands now. */
    const open = async (number: number) => {
      const row = `document.querySelectorAll('.legs button.leg')[${number - 1}]`;
      await page.evaluate(`document.querySelectorAll('.legs button.leg')[${Math.max(number - 2, 0)}].focus()`);
      for (let press = 0; press < 60 && !(await page.evaluate(`document.activeElement === ${row}`)); press++) {
        await keys.press('Tab');
      }
      if ((await page.evaluate(`${row}.ariaExpanded`)) !== 'true') await keys.press('Enter');
    };

    /** Every position in the order of travel. */
    const points: number[][] = [];
    const gather = (steps: RouteRecipe['steps']) => {
      for (const step of steps) {
        if (step.call === 'start' || step.call === 'lineTo') points.push(step.position);
        if (step.call === 'follow') points.push(step.line[1]);
        if (step.call === 'laps') gather(step.steps);
      }
    };
    gather(recipe.steps);
    expect(points).toHaveLength(12);
    await tabTo('add: Longitude');
    for (const [longitude, latitude] of points) {
      await keys.type(String(longitude));
      await put('add: Latitude', latitude);
      await keys.press('Enter');
    }
    // sections after the points 3, 6 and 9, the last first so that the others keep their numbers; then named anew
    const cuts = recipe.steps.flatMap(({ call }, i) => (call === 'section' ? [i] : []));
    expect(cuts).toHaveLength(3);
    for (const cut of cuts) {
      await open(cut);
      await tabTo('Begin a section after it');
      await keys.press('Enter');
    }
    await open(5);
    await tabTo('Run beside this leg');
    await keys.press('Enter');
    await open(5);
    await put('Distance beside the line', '3.5');
    await keys.press('Enter');
    await tabTo('Side of the line');
    await keys.press('l');
    await open(6);
    await put('Radius of the corner here', '8');
    await keys.press('Enter');
    await open(13);
    await put('So many rows', '2');
    await keys.press('Enter');
    await tabTo('Make laps');
    await keys.press('Enter');
    const again = await saved(page, async () => {
      await tabTo('Save the line', 'back');
      await keys.press('Enter');
    });
    expect(JSON.parse(again)).toEqual(recipe);
    // what changed was told
    await expect.poll(() => page.getByRole('status').last().textContent()).toContain('saved');
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);

  test('areas, marks, lines to follow and pictures by mouse; the list says the same, and the picture stays out', async () => {
    const { page, complaints } = await openPage(browser, { width: 1600, height: 1300 });
    const desk = page.locator('.line-desk');
    const file = (label: string, name: string, text: string) =>
      desk.getByLabel(label).setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
    const steps = async () =>
      JSON.parse(await saved(page, () => desk.getByRole('button', { name: 'Save the line' }).click())).steps;
    const frame = desk.locator('.line-map-frame');
    const click = async (right: number, down: number) => {
      await frame.scrollIntoViewIfNeeded();
      const box = (await frame.boundingBox())!;
      await page.mouse.click(box.x + right, box.y + down);
    };
    const kerb = [
      [5.199, 60.1005],
      [5.201, 60.1005],
    ];
    const feature = {
      type: 'Feature',
      properties: { name: 'kerb' },
      geometry: { type: 'LineString', coordinates: kerb },
    };
    const line = {
      version: 1,
      options: {},
      steps: [
        { call: 'start', position: kerb[0] },
        { call: 'lineTo', position: [5.2, 60.1] },
      ],
    };
    await file('Open a line', 'line.json', JSON.stringify(line));
    await file('Open surroundings', 'kerb.geojson', JSON.stringify(feature));
    await page.getByText('kerb.geojson lies beneath the line now.').waitFor();
    await desk.getByRole('button', { name: 'Show the whole line' }).click();
    const { width, height } = (await frame.boundingBox())!;

    await desk.getByLabel('Follow a line', { exact: true }).check();
    // the kerb begins where the line does, in the upper left corner but for the margin
    await click(100, 40 + (height - 80) * 0);
    await expect.poll(() => desk.locator('.legs button.leg').count()).toBe(3);
    await desk.getByLabel('Name an area', { exact: true }).check();
    for (const [right, down] of [
      [60, 60],
      [width / 2, 60],
      [width / 2, height / 2],
    ])
      await click(right, down);
    await desk.getByRole('button', { name: 'Close the area' }).click();
    await desk.getByLabel('Set marks', { exact: true }).check();
    await click(width / 2, height - 90);
    const byMouse = await steps();
    expect(byMouse.map(({ call }: { call: string }) => call)).toEqual(['start', 'lineTo', 'follow', 'section', 'mark']);
    expect(byMouse[2]).toEqual({ call: 'follow', line: kerb });
    expect(byMouse[3].inside.coordinates[0]).toHaveLength(4);

    // the same from the list, after as many are undone
    for (let k = 0; k < 3; k++) await desk.getByRole('button', { name: 'Undo', exact: true }).click();
    const add = async (what: string) => {
      await desk.getByLabel('Add something else').selectOption({ label: what });
      await desk.locator('.legs form.add').last().getByRole('button', { name: 'Add' }).click();
    };
    const open = desk.locator('.leg-open');
    await desk.locator('.legs button.leg').last().click();
    await add('along kerb');
    await add('the beginning of a section');
    const corners: number[][] = byMouse[3].inside.coordinates[0].slice(0, -1);
    await open.getByLabel(/^Or all that lies in this area/).fill(corners.map((corner) => corner.join(' ')).join('\n'));
    await open.getByLabel('Name of the section').focus();
    await add('a mark here');
    const near = open.getByRole('group', { name: /nearest to/ });
    await near.getByLabel('Longitude').fill(String(byMouse[4].near[0]));
    await page.keyboard.press('Tab');
    // the other half is the middle of the map until it is typed
    await expect.poll(() => near.getByLabel('Latitude').inputValue()).not.toBe('');
    await near.getByLabel('Latitude').fill(String(byMouse[4].near[1]));
    await page.keyboard.press('Enter');
    expect(await steps()).toEqual(byMouse);

    await desk.getByText('A picture beneath the line').click();
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100"><rect width="200" height="100" fill="red"/></svg>';
    await desk
      .getByLabel('Open a picture')
      .setInputFiles({ name: 'plan.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
    const picture = desk.locator('.picture-frame img');
    for (const [x, y, right, down] of [
      [5, 5, 100, 100],
      [195, 95, 400, 250],
      [195, 5, 400, 100],
      [5, 95, 110, 240],
    ]) {
      await picture.click({ position: { x, y } });
      await click(right, down);
    }
    await expect
      .poll(() => desk.locator('.picture-part').textContent())
      .toMatch(/Placed by 4 points.*residual \d+\.\d\d m/);
    await expect.poll(() => desk.locator('.control-points li').count()).toBe(4);
    // red as it is, and not only said to be there
    const red = `[...document.querySelectorAll('.line-map-frame canvas')].reduce((sum, canvas) => {
      // of a copy: the browser warns of what is read back again and again
      const copy = new OffscreenCanvas(canvas.width, canvas.height).getContext('2d', { willReadFrequently: true });
      copy.drawImage(canvas, 0, 0);
      const { data } = copy.getImageData(0, 0, canvas.width, canvas.height);
      return sum + data.filter((value, k) => k % 4 === 0 && value > 200 && data[k + 1] < 120 && data[k + 3] > 60).length;
    }, 0)`;
    await expect.poll(() => page.evaluate<number>(red)).toBeGreaterThan(10_000);
    for (const left of [3, 2]) {
      await desk.locator('.control-points').getByRole('button', { name: 'Take it out' }).last().click();
      await expect.poll(() => desk.locator('.control-points li').count()).toBe(left);
    }
    await expect
      .poll(() => desk.locator('.picture-part [role=status]').textContent())
      .toContain('Placed by 2 points, turned and scaled; a further point would tell how well.');
    expect(await page.evaluate<number>(red)).toBeGreaterThan(10_000);
    await desk.locator('.control-points').getByRole('button', { name: 'Take it out' }).last().click();
    await expect.poll(() => page.evaluate<number>(red)).toBeLessThan(100); // the drawing itself has a few
    expect(JSON.stringify(await steps())).not.toContain('data:');

    const fixed = { version: 1, options: {}, steps: [{ call: 'reverse', recipe: line }] };
    await file('Open a line', 'back.json', JSON.stringify(fixed));
    await expect.poll(() => desk.locator('.fixed').textContent()).toContain('made of another one');
    expect(await steps()).toEqual(fixed.steps);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 90_000);

  test('a warning shows its place; a world file places a picture; a line is drafted; all is there to be undone after a reload', async () => {
    const { page, complaints } = await openPage(browser, { width: 1600, height: 1300 });
    const desk = page.locator('.line-desk');
    const said = page.locator('.said');
    const crossed = {
      version: 1,
      options: {},
      steps: [
        { call: 'start', position: [5.2, 60.1] },
        { call: 'lineTo', position: [5.204, 60.1] },
        { call: 'lineTo', position: [5.204, 60.101] },
        { call: 'lineTo', position: [5.202, 60.101] },
        { call: 'lineTo', position: [5.202, 60.099] },
      ],
    };
    const { warnings } = routeFromRecipe(crossed as RouteRecipe);
    expect(warnings.length).toBeGreaterThan(0);
    const given = (name: string, text: string) => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
    await desk.getByLabel('Open a line').setInputFiles(given('crossed.json', JSON.stringify(crossed)));
    await expect.poll(() => desk.locator('.warnings li').count()).toBe(warnings.length);
    const crossing = warnings.find(({ reason }) => reason === 'self-crossing')!;
    await desk.getByRole('button', { name: `Show the place: ${crossing.message}` }).click();
    const [from, to] = [crossing.from, crossing.to].map(Math.round);
    await expect.poll(() => said.textContent()).toBe(`Shown: ${from} to ${to} m along the line.`);
    // the map went there: its middle is that of the loop, from the crossing to the crossing
    await expect
      .poll(async () => {
        const caption = await desk.locator('.line-map figcaption').textContent();
        const [lon, lat] = /middle of the map at ([-\d]+\.\d+), ([-\d]+\.\d+)/.exec(caption!)!.slice(1).map(Number);
        return inverse([lon, lat], [5.203, 60.1005]).distance;
      })
      .toBeLessThan(10);
    await desk.getByRole('button', { name: 'Hide the place shown' }).click();
    // past bug, 2026-11-29: on a telephone the map that went there lay above the screen
    await page.setViewportSize({ width: 360, height: 800 });
    await desk.getByRole('button', { name: `Show the place: ${crossing.message}` }).press('Enter');
    await expect
      .poll(async () => {
        const { y, height } = (await desk.locator('.line-map-frame').boundingBox())!;
        return y >= -0.5 && y + height <= 800.5;
      })
      .toBe(true);
    await desk.getByRole('button', { name: 'Hide the place shown' }).click();
    await page.setViewportSize({ width: 1600, height: 1300 });

    await desk.getByText('A picture beneath the line').click();
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100"><rect width="200" height="100"/></svg>';
    await desk
      .getByLabel('Open a picture')
      .setInputFiles({ name: 'plan.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(svg) });
    await desk.getByLabel('Open its world file').setInputFiles(given('plan.wld', '155000\n0\n0\n-155000\n6700000\n1'));
    await expect.poll(() => said.textContent()).toMatch(/^world file must be in degrees/);
    await desk.getByLabel('Open its world file').setInputFiles(given('plan.wld', '2e-5\n0\n0\n-1e-5\n5.2\n60.101\n'));
    await expect.poll(() => said.textContent()).toBe('Placed by its world file.');
    await expect
      .poll(() => desk.locator('.picture-part').textContent())
      .toMatch(/Placed by 4 points.*residual 0\.0\d m/);

    await desk.getByLabel('Keep the picture with the line in this browser').check();

    const walked = Array.from({ length: 120 }, (_, i) => direct([5.21, 60.1], 90, 2 * i).position);
    const points = walked.map(
      ([lon, lat], i) =>
        `<trkpt lat="${lat}" lon="${lon}"><time>2031-05-01T08:0${Math.floor(i / 60)}:${String(i % 60).padStart(2, '0')}Z</time></trkpt>`,
    );
    await page.setInputFiles(
      '.who input[type=file]',
      given('walk.gpx', `<gpx><trk><trkseg>${points.join('')}</trkseg></trk></gpx>`),
    );
    await page.locator('.who td[data-label="Fixes"]:has-text("120")').waitFor();
    await desk.getByRole('button', { name: 'Begin from the recordings' }).click();
    await expect.poll(() => said.textContent()).toMatch(/^Drafted from the recordings/);
    const length = await desk.locator('.told strong').textContent();
    expect(Number.parseFloat(length!)).toBeCloseTo(238, -1);

    await expect.poll(() => page.evaluate<string>(keptText)).toContain('Drafted from the recordings');
    await page.reload();
    await expect.poll(() => desk.locator('.told strong').textContent()).toBe(length);
    expect(await desk.locator('.control-points li').count()).toBe(4);
    await expect
      .poll(() => page.evaluate<number>(`document.querySelector('.picture-frame img').naturalWidth`))
      .toBe(200);
    const undo = desk.getByRole('button', { name: 'Undo', exact: true });
    await undo.click();
    await expect.poll(() => said.textContent()).toMatch(/^Undone: Drafted from the recordings/);
    await expect.poll(() => desk.locator('.legs > ol > li').count()).toBe(crossed.steps.length);
    await undo.click();
    await expect.poll(() => said.textContent()).toBe('Undone: Opened crossed.json.');
    await expect.poll(() => undo.isEnabled()).toBe(false);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);

  test('the whole line turned round, moved, cut and joined by keyboard: the route of the library, and undo brings back each', async () => {
    const { page, complaints } = await openPage(browser, { width: 1600, height: 1300 });
    const desk = page.locator('.line-desk');
    const said = page.locator('.said');
    const keys = page.keyboard;
    const given = (name: string, text: string) => ({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
    const steps = [
      { call: 'start', position: [5.2, 60.1] },
      { call: 'section', name: 'quay', halfWidth: 4 },
      { call: 'lineTo', position: [5.204, 60.1] },
      { call: 'lineTo', position: [5.204, 60.102] },
    ];
    const line = { version: 1, options: { name: 'harbour', lateral95: 0.3 }, steps } as RouteRecipe;
    await desk.getByLabel('Open a line').setInputFiles(given('harbour.json', JSON.stringify(line)));
    await expect.poll(() => said.textContent()).toBe('Opened harbour.json.');

    /** Goes on with Tab to what bears a name among what is done to the whole line. */
    const tabTo = async (name: string) => {
      for (let press = 0; press < 400; press++) {
        const named = await page.evaluate<string>(`{
          const at = document.activeElement;
          at.closest('.whole-line') ? (at.labels?.[0]?.firstChild ?? at).textContent : ''
        }`);
        if (named === name) return;
        await keys.press('Tab');
      }
      throw new Error(`Tab never comes to ${name}.`);
    };
    const press = async (name: string) => {
      await tabTo(name);
      await keys.press('Enter');
    };
    const put = async (name: string, value: string) => {
      await tabTo(name);
      await keys.press('Control+A');
      await keys.press('Delete');
      await keys.type(value);
    };
    const undo = desk.getByRole('button', { name: 'Undo', exact: true });
    const recipeNow = async (): Promise<RouteRecipe> =>
      JSON.parse(await saved(page, () => desk.getByRole('button', { name: 'Save the line' }).press('Enter')));
    const expectRoute = async (did: string, route: Route) => {
      const length = `${route.length.toFixed(1)} m`;
      await expect.poll(() => said.textContent()).toBe(`${did}: the line is ${length} long now.`);
      // it is built as well, and drawn
      await expect.poll(() => desk.locator('.told strong').textContent()).toBe(length);
      const recipe = await recipeNow();
      const built = routeFromRecipe(recipe);
      expect([built.lon, built.lat, built.sections]).toEqual([route.lon, route.lat, route.sections]);
      expect(recipe).toEqual(route.recipe);
      return recipe;
    };

    await press('The line as a whole');
    await press('Turn round');
    const turned = reverseRoute(routeFromRecipe(line));
    const made = [line, await expectRoute('Turned round', turned)];
    expect(await desk.locator('.fixed').textContent()).toContain("its legs can't be changed");

    await put('Metres', '3.5');
    await tabTo('Side');
    await keys.press('r');
    await tabTo('Outside of corners');
    await keys.press('m');
    await press('Move beside');
    const beside = offsetRoute(turned, { side: 'right', metres: 3.5, join: 'mitre' });
    made.push(await expectRoute('Moved 3.5 m to the right', beside));

    await put('From, metres', '20');
    await put('To, metres; empty for its end', '300');
    await keys.press('Enter');
    const part = sliceRoute(beside, 20, 300);
    made.push(await expectRoute('Cut from 20 m to 300 m', part));

    // what can't be is said, and nothing is changed
    await put('From, metres', '290');
    await put('To, metres; empty for its end', '281');
    await keys.press('Enter');
    await expect.poll(() => said.textContent()).toMatch(/^from must be within \[0, 280\], the route/);
    await put('Metres', '0');
    await keys.press('Enter');
    await expect.poll(() => said.textContent()).toMatch(/^metres must be a number above 0/);
    // the browser asks the test, not the screen, for a file while anybody listens: begun with the key press it comes too late at times
    page.on('filechooser', () => {});
    const join = async (name: string, text: string) => {
      await tabTo('Join a line behind');
      const [chooser] = await Promise.all([page.waitForEvent('filechooser'), keys.press('Space')]);
      await chooser.setFiles(given(name, text));
    };
    const end = pointAt(part, part.length).position;
    const away = routeFromLine([direct(end, 90, 5).position, direct(end, 90, 80).position]);
    const asked = 'away.json begins 5.00 m from the end of this line';
    for (const answer of ['Leave it', 'Join by a straight piece']) {
      await join('away.json', JSON.stringify(away.recipe));
      await expect
        .poll(() => said.textContent())
        .toContain(`${asked}: choose whether a straight piece is to join them.`);
      expect(await desk.locator('.whole-line .choice').textContent()).toContain(
        `${asked}. A straight piece between them`,
      );
      expect(await barriers(page)).toEqual([]);
      await press(answer);
      await expect.poll(() => desk.locator('.whole-line .choice').count()).toBe(0);
      if (answer !== 'Leave it') continue;
      await expect.poll(() => said.textContent()).toBe('Not joined.');
      expect(await recipeNow()).toEqual(part.recipe);
    }
    const bridged = joinRoutes(part, away, { gap: 'line' });
    expect(bridged.warnings.map(({ reason }) => reason)).toContain('bridged-gap');
    await expectRoute('Joined away.json behind it by a straight piece of 5.00 m', bridged);
    await undo.press('Enter');
    await expect.poll(() => desk.locator('.told strong').textContent()).toBe(`${part.length.toFixed(1)} m`);
    await join('away.gpx', writeGpx(away));
    await expect.poll(() => said.textContent()).toMatch(/^away\.gpx begins 5\.00 m from the end of this line/);
    await join('amiss.json', '{');
    await expect.poll(() => said.textContent()).toMatch(/^amiss\.json must be JSON/);
    expect(await recipeNow()).toEqual(part.recipe);

    const on = routeFromLine([end, direct(end, 90, 80).position], { name: 'on' });
    await join('on.json', JSON.stringify(on.recipe));
    made.push(await expectRoute('Joined on.json behind it', joinRoutes(part, on, { gap: 'refuse' })));

    await page.setViewportSize({ width: 360, height: 800 });
    expect(await page.evaluate<number>('document.documentElement.scrollWidth')).toBeLessThanOrEqual(360);
    expect(await barriers(page)).toEqual([]);

    for (const before of made.reverse().slice(1)) {
      await undo.press('Enter');
      expect(await recipeNow()).toEqual(before);
    }
    await expect.poll(() => desk.locator('.legs > ol > li').count()).toBe(steps.length);
    await page.setViewportSize({ width: 1600, height: 1300 });
    await put('From, metres', '');
    await put('To, metres; empty for its end', '');
    await keys.press('Enter');
    await expect.poll(() => said.textContent()).toMatch(/^Cut from 0 m to its end: the line is/);
    // past bug, 2026-11-29: cut at the length as the browser has it, 3e-10 m more than here, it was not built here
    const whole = await recipeNow();
    expect(whole.steps[0].call).toBe('slice');
    expect(routeFromRecipe(whole).length).toBeCloseTo(routeFromRecipe(line).length, 5);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);

  test('what a line made of others says is changed in the list; one goes back to what it was made of, step by step', async () => {
    const { page, complaints } = await openPage(browser, { width: 1600, height: 1300 });
    const desk = page.locator('.line-desk');
    const recipeNow = async () =>
      JSON.parse(await saved(page, () => desk.getByRole('button', { name: 'Save the line' }).click()));
    const straight = (from: number, to: number): RouteRecipe => ({
      ...{ version: 1, options: {} },
      steps: [
        { call: 'start', position: [5.2 + from / 1e3, 60.100001] },
        { call: 'lineTo', position: [5.2 + to / 1e3, 60.100001] },
      ],
    });
    const made = (step: RouteRecipe['steps'][number]): RouteRecipe => ({ version: 1, options: {}, steps: [step] });
    const [first, second] = [straight(0, 4), straight(6, 9)];
    const part = (to: number) => made({ call: 'slice', recipe: first, from: 10, to });
    const joined = (one: RouteRecipe, gap?: 'line') =>
      made({ call: 'join', recipes: [one, second], ...(gap && { gap }) });
    const beside = (one: RouteRecipe) => made({ call: 'offset', recipe: one, side: 'left', metres: 2 });
    await desk.getByLabel('Open a line').setInputFiles({
      ...{ name: 'made.json', mimeType: 'application/json' },
      buffer: Buffer.from(JSON.stringify(beside(joined(part(150))))),
    });
    const fields = desk.locator('.leg-open');
    const row = desk.locator('.legs button.leg');
    await expect.poll(() => desk.locator('.fixed').textContent()).toContain('beside another line, 2 m to its left');
    await row.click();
    await fields.getByLabel('Outside of corners').selectOption('mitre');
    await fields.getByLabel('Distance beside the other line').fill('3.5');
    await page.keyboard.press('Enter');
    await fields.getByLabel('Side of the other line').selectOption('right');
    const whole = joined(part(150));
    const moved = made({ call: 'offset', recipe: whole, side: 'right', metres: 3.5, join: 'mitre' });
    expect(await recipeNow()).toEqual(moved);
    const { length } = routeFromRecipe(moved);
    await expect.poll(() => desk.locator('.told strong').textContent()).toBe(`${length.toFixed(1)} m`);

    await desk.getByRole('button', { name: 'Back to the line it was made of' }).click();
    expect(await recipeNow()).toEqual(whole);
    await row.click();
    const gap = fields.getByLabel(/^Where the second begins away/);
    await gap.selectOption('they are no line');
    await expect
      .poll(() => desk.locator('.fault').textContent())
      .toMatch(/start of the second route must be at the end/);
    await gap.selectOption('a straight piece joins them');
    expect(await recipeNow()).toEqual(joined(part(150), 'line'));

    await desk.getByRole('button', { name: 'Back to the first line' }).click();
    await row.click();
    await fields.getByLabel('To, along the other line').fill('120');
    await page.keyboard.press('Enter');
    expect(await recipeNow()).toEqual(part(120));
    expect(await barriers(page)).toEqual([]);
    await desk.getByRole('button', { name: 'Back to the line it was made of' }).click();
    expect(await recipeNow()).toEqual(first);
    await expect.poll(() => desk.locator('.fixed').count()).toBe(0);
    const undo = desk.getByRole('button', { name: 'Undo', exact: true });
    for (let k = 0; k < 2; k++) await undo.click();
    await desk.getByRole('button', { name: 'Undo', exact: true }).click();
    await desk.getByRole('button', { name: 'Back to the second line' }).click();
    expect(await recipeNow()).toEqual(second);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 120_000);

  test('undo while a point is held: what was undone does not come back with it', async () => {
    const { page, complaints } = await openPage(browser, { width: 1600, height: 1300 });
    const desk = page.locator('.line-desk');
    const frame = desk.locator('.line-map-frame');
    const steps = [5.2, 5.203, 5.206].map((lon, i) => ({
      call: i === 0 ? 'start' : 'lineTo',
      position: [lon, 60.100001],
    }));
    await desk.getByLabel('Open a line').setInputFiles({
      ...{ name: 'line.json', mimeType: 'application/json' },
      buffer: Buffer.from(JSON.stringify({ version: 1, options: {}, steps })),
    });
    await expect.poll(() => desk.locator('.legs > ol > li').count()).toBe(3);
    await desk.getByLabel('Move points', { exact: true }).check();
    const { x, y, width, height } = (await frame.boundingBox())!;
    const [middleX, middleY] = [x + width / 2, y + height / 2];
    // the second point lies in the middle of the map
    await page.mouse.move(middleX, middleY);
    await page.mouse.down();
    await page.mouse.move(middleX, middleY + 60);
    await page.mouse.up();
    await expect.poll(() => page.locator('.said').textContent()).toMatch(/^A point was moved/);
    await page.mouse.move(middleX, middleY + 60);
    await page.mouse.down();
    await page.mouse.move(middleX, middleY + 120);
    await page.keyboard.press('Control+z');
    await expect.poll(() => page.locator('.said').textContent()).toMatch(/^Undone: A point was moved/);
    await page.mouse.move(middleX, middleY + 140);
    await page.mouse.up();
    const recipe = JSON.parse(await saved(page, () => desk.getByRole('button', { name: 'Save the line' }).click()));
    expect(recipe.steps).toEqual(steps);
    expect(await desk.getByRole('button', { name: 'Redo', exact: true }).isEnabled()).toBe(true);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 60_000);

  test('220 changes: after a reload all are undone to nothing and done again', async () => {
    const { page, complaints } = await openPage(browser, { width: 1600, height: 1300 });
    const desk = page.locator('.line-desk');
    const steps = Array.from({ length: 30 }, (_, i) => ({
      call: i === 0 ? 'start' : 'lineTo',
      position: [5.2 + i * 1e-4, 60.1 + (i % 2) * 1e-5].map((degrees) => Math.round(degrees * 1e9) / 1e9),
    }));
    await desk.getByLabel('Open a line').setInputFiles({
      ...{ name: 'long.json', mimeType: 'application/json' },
      buffer: Buffer.from(JSON.stringify({ version: 1, options: { maxSpacing: 500 }, steps })),
    });
    await expect.poll(() => desk.locator('.told strong').count()).toBe(1);
    // as typed into the form, one change after the other
    await page.evaluate(`(async () => {
      const form = document.querySelector('.legs form.add');
      for (let k = 1; k < 220; k++) {
        form.elements.namedItem('lon').value = 5.2 + (k % 7) * 1e-4;
        form.elements.namedItem('lat').value = 60.11 + k * 1e-5;
        form.requestSubmit();
        await new Promise((resolve) => setTimeout(resolve));
      }
    })()`);
    const saving = () => saved(page, () => desk.getByRole('button', { name: 'Save the line' }).click());
    const drawn = await saving();
    expect(JSON.parse(drawn).steps).toHaveLength(249);
    await expect.poll(() => page.evaluate<string>(keptText)).toContain(JSON.stringify(JSON.parse(drawn).steps.at(-1)));
    await page.reload();
    const [undo, redo] = ['Undo', 'Redo'].map((name) => desk.getByRole('button', { name, exact: true }));
    await expect.poll(() => undo.isEnabled()).toBe(true);
    const pressed = (name: string) =>
      page.evaluate<number>(`(async () => {
        const button = [...document.querySelectorAll('.line-buttons button')].find(({ textContent }) => textContent.trim() === '${name}');
        let times = 0;
        for (; !button.disabled && times < 1000; times++) {
          button.click();
          await new Promise((resolve) => setTimeout(resolve));
        }
        return times;
      })()`);
    expect(await pressed('Undo')).toBe(220);
    expect(await redo.isEnabled()).toBe(true);
    await expect.poll(() => desk.locator('.told').textContent()).toContain('Nothing is drawn yet');
    expect(await pressed('Redo')).toBe(220);
    expect(await saving()).toBe(drawn);
    expect(complaints).toEqual([]);
    await page.context().close();
  }, 180_000);
});

/** What keeps those out who see or point otherwise. */
async function barriers(page: Page): Promise<string[]> {
  const session = await page.context().newCDPSession(page);
  await session.send('Runtime.evaluate', { expression: axe });
  const found = await page.evaluate<{ id: string; impact: string; nodes: { html: string }[] }[]>(
    `axe.run('.line-desk').then(({ violations }) => violations)`,
  );
  const serious = found.filter(({ impact }) => impact === 'serious' || impact === 'critical');
  return serious.map(({ id, nodes }) => `${id}: ${nodes[0].html}`);
}
