/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { InputError } from 'datumline';
import type { VNode } from 'preact';
import { addressOf } from './addressOf';
import type { Desk } from './Desk';
import { fitPicture } from './fitPicture';
import { mapPlane } from './mapPlane';
import { NumberField } from './NumberField';
import type { ControlPoint, PlacedPicture } from './PlacedPicture';
import { readWorldFile } from './readWorldFile';

/** A picture or scan beneath the line, and the points that place it. */
export function PicturePart({ desk }: { readonly desk: Desk }): VNode {
  const { say } = desk;
  const { picture } = desk.store;
  const placed = picture.value;
  return (
    <details class="picture-part">
      <summary>A picture beneath the line</summary>
      <p class="quiet">Drawing over a picture: mind the terms of its licence. It stays in this browser.</p>
      <label class="file-button">
        Open a picture
        <input
          type="file"
          accept="image/*"
          onChange={async (event) => {
            const [file] = event.currentTarget.files ?? [];
            if (!file) return;
            try {
              picture.value = await readPicture(file);
              say(`${file.name} opened. Click a place in it, then the same place on the map; two places are needed.`);
            } catch {
              say(`${file.name} must be a picture that this browser can show.`);
            }
          }}
        />
      </label>
      {placed && <Placing desk={desk} placed={placed} />}
    </details>
  );
}

function Placing({ desk, placed }: { readonly desk: Desk; readonly placed: PlacedPicture }): VNode {
  const { say, pin } = desk;
  const { picture } = desk.store;
  const put = (points: readonly ControlPoint[], said: string) => {
    picture.value = { ...placed, points };
    say(said);
  };
  const plane = placed.points[0] && mapPlane(placed.points[0].position);
  const fit = plane ? fitPicture(placed.points, plane.toPlane) : null;
  const change = (i: number, changed: Partial<ControlPoint>) =>
    put(
      placed.points.map((point, k) => (k === i ? { ...point, ...changed } : point)),
      `Point ${i + 1} of the picture changed.`,
    );
  return (
    <>
      <div class="picture-frame">
        {/* biome-ignore lint/a11y/useKeyWithClickEvents: the fields below are the keyboard's way */}
        <img
          src={addressOf(placed.file)}
          alt={`${placed.name}: click a place that you know`}
          onClick={(event) => {
            const box = event.currentTarget.getBoundingClientRect();
            const x = Math.round(((event.clientX - box.left) / box.width) * placed.width * 10) / 10;
            const y = Math.round(((event.clientY - box.top) / box.height) * placed.height * 10) / 10;
            pin.value = { x, y };
            desk.tool.value = 'place';
            say('Now click the same place on the map.');
          }}
        />
      </div>
      <p role="status">
        {pin.value ? `Waiting for the place on the map of ${pin.value.x}, ${pin.value.y} in the picture.` : ''}
        {fit === null && !pin.value && 'Two places at least are needed.'}
        {fit !== null &&
          ` Placed by ${placed.points.length} points, ${fit.kind === 'affine' ? 'each direction scaled by itself' : 'turned and scaled'}; `}
        {fit !== null &&
          (fit.residual === null ? 'a further point would tell how well.' : `residual ${fit.residual.toFixed(2)} m.`)}
      </p>
      <ol class="control-points">
        {placed.points.map((point, i) => (
          <li key={`${i}`}>
            <NumberField
              label="From the left"
              min={0}
              step={1}
              need="must"
              value={point.x}
              say={say}
              change={(x) => change(i, { x: x! })}
            />
            <NumberField
              label="From the top"
              min={0}
              step={1}
              need="must"
              value={point.y}
              say={say}
              change={(y) => change(i, { y: y! })}
            />
            <NumberField
              label="Longitude"
              unit="°"
              step={0.00001}
              need="must"
              value={point.position[0]}
              say={say}
              change={(lon) => change(i, { position: [lon!, point.position[1]] })}
            />
            <NumberField
              label="Latitude"
              unit="°"
              step={0.00001}
              need="must"
              value={point.position[1]}
              say={say}
              change={(lat) => change(i, { position: [point.position[0], lat!] })}
            />
            {fit && <span class="quiet">missed by {fit.residuals[i].toFixed(2)} m</span>}
            <button
              type="button"
              onClick={() =>
                put(
                  placed.points.filter((_, k) => k !== i),
                  `Point ${i + 1} of the picture taken out.`,
                )
              }
            >
              Take it out
            </button>
          </li>
        ))}
      </ol>
      <button
        type="button"
        onClick={() =>
          put(
            [...placed.points, { x: 0, y: 0, position: desk.middle.value }],
            'A point of the picture added, at its upper left corner and the middle of the map.',
          )
        }
      >
        Add a point by its numbers
      </button>
      <label class="file-button">
        Open its world file
        <input
          type="file"
          onChange={async (event) => {
            const [file] = event.currentTarget.files ?? [];
            if (!file) return;
            try {
              put(readWorldFile(await file.text(), placed), 'Placed by its world file.');
              desk.goTo.value = { to: picture.value!.points[0].position };
            } catch (error) {
              if (!(error instanceof InputError)) throw error;
              say(error.message);
            }
          }}
        />
      </label>
      <label>
        <input
          type="checkbox"
          checked={placed.keep}
          onChange={(event) => (picture.value = { ...placed, keep: event.currentTarget.checked })}
        />
        Keep the picture with the line in this browser
      </label>
      <button type="button" onClick={() => (picture.value = null)}>
        Take the picture away
      </button>
    </>
  );
}

async function readPicture(file: File): Promise<PlacedPicture> {
  const image = new Image();
  image.src = addressOf(file);
  await image.decode();
  return { name: file.name, file, width: image.naturalWidth, height: image.naturalHeight, points: [], keep: false };
}
