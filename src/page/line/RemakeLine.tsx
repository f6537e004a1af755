/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import { useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';
import type { Desk } from './Desk';
import type { Drawing } from './Drawing';
import { shownMetres } from './describeStep';
import { FileButton } from './FileButton';
import type { Remade, Remaking } from './remakeLine';
import { offsetJoins } from './stepFields';

/** Makes another line of the whole one: turned round, moved, cut, or with another behind it. */
export function RemakeLine({ desk }: { readonly desk: Desk }): VNode {
  const { store, say } = desk;
  /** A line that waits for somebody to say whether a straight piece may join it. */
  const waiting = useSignal<{ readonly before: Drawing; readonly made: Remade; readonly name: string } | null>(null);
  const take = (before: Drawing, { drawing, length }: Remade, did: string) => {
    if (store.drawing.peek() !== before) return say('The line changed meanwhile; nothing was done.');
    desk.selected.value = null;
    desk.edit(() => ({ drawing }), `${did}: the line is ${shownMetres(length)} long now.`);
  };
  const remake = async (remaking: Remaking, did: string) => {
    const before = store.drawing.peek();
    waiting.value = null;
    try {
      const made = await store.remake(before, remaking);
      if (made.apart === undefined || remaking.call !== 'join') return take(before, made, did);
      const { name } = remaking;
      waiting.value = { before, made, name };
      say(
        `${name} begins ${apartOf(made)} from the end of this line: choose whether a straight piece is to join them.`,
      );
    } catch (error) {
      say((error as Error).message.replace(/^options\./, ''));
    }
  };
  return (
    <>
      <h3>The whole line</h3>
      <p class="quiet">
        Each makes a new line, whose legs can't be changed unless you go back to the one it was made of.
      </p>
      <Form legend="The other way" button="Turn round" take={() => remake({ call: 'reverse' }, 'Turned round')} />
      <Form
        legend="To one side"
        button="Move beside"
        fields={[['Metres', 'metres']]}
        take={({ metres, ...beside }) =>
          remake(
            { call: 'offset', metres: Number(metres), ...beside } as Remaking,
            `Moved ${metres} m to the ${beside.side}`,
          )
        }
      >
        {[
          ['Side', 'side', 'left', 'right'],
          ['Outside of corners', 'join', ...offsetJoins],
        ].map(([label, name, ...options]) => (
          <label key={name}>
            {label}
            <select name={name}>
              {options.map((option) => (
                <option key={option}>{option}</option>
              ))}
            </select>
          </label>
        ))}
      </Form>
      <Form
        legend="A part of it"
        button="Cut"
        fields={[
          ['From, metres', 'from'],
          ['To, metres; empty for its end', 'to'],
        ]}
        take={({ from, to }) =>
          remake(
            { call: 'slice', from: Number(from), ...(to && { to: Number(to) }) } as Remaking,
            `Cut from ${from || 0} m to ${to ? `${to} m` : 'its end'}`,
          )
        }
      />
      <FileButton
        label="Join a line behind"
        take={async (file) => {
          const { name } = file;
          await remake({ call: 'join', text: await file.text(), name }, `Joined ${name} behind it`);
        }}
      />
      {waiting.value && (
        <div class="choice care">
          <p>
            {waiting.value.name} begins {apartOf(waiting.value.made)} from the end of this line. A straight piece
            between them is part of the line, and what was recorded there is judged by it: join them by it only if that
            is the way you went.
          </p>
          <button
            type="button"
            onClick={() => {
              const { before, made, name } = waiting.value!;
              waiting.value = null;
              take(before, made, `Joined ${name} behind it by a straight piece of ${apartOf(made)}`);
            }}
          >
            Join by a straight piece
          </button>{' '}
          <button
            type="button"
            onClick={() => {
              waiting.value = null;
              say('Not joined.');
            }}
          >
            Leave it
          </button>
        </div>
      )}
    </>
  );
}

const apartOf = ({ apart = 0 }: Remade) => `${apart.toFixed(2)} m`;

/** Fields, and a button that does something with what is in them. */
function Form({
  legend,
  button,
  fields = [],
  take,
  children,
}: {
  readonly legend: string;
  readonly button: string;
  /** Label and name of each number. */
  readonly fields?: readonly (readonly [string, string])[];
  /** Called with what the fields hold, by their names. */
  readonly take: (typed: { readonly [name: string]: string }) => void;
  readonly children?: ComponentChildren;
}): VNode {
  return (
    <form
      class="add"
      onSubmit={(event) => {
        event.preventDefault();
        take(Object.fromEntries(new FormData(event.currentTarget)) as { [name: string]: string });
      }}
    >
      <fieldset>
        <legend>{legend}</legend>
        {fields.map(([label, name]) => (
          <label key={name}>
            {label}
            <input name={name} type="number" step="any" />
          </label>
        ))}
        {children}
        <button type="submit">{button}</button>
      </fieldset>
    </form>
  );
}
