/** @jsxRuntime automatic */
/** @jsxImportSource preact */
import type { ComponentChildren, VNode } from 'preact';
import type { Desk } from './Desk';
import { shownMetres } from './describeStep';
import { FileButton } from './FileButton';
import type { Remaking } from './remakeLine';

/** Makes another line of the whole one: turned round, moved, cut, or with another behind it. */
export function RemakeLine({ desk }: { readonly desk: Desk }): VNode {
  const { store, say } = desk;
  const remake = async (remaking: Remaking, did: string) => {
    const before = store.drawing.peek();
    try {
      const { drawing, length } = await store.remake(before, remaking);
      if (store.drawing.peek() !== before) return say('The line changed meanwhile; nothing was done.');
      desk.selected.value = null;
      desk.edit(() => ({ drawing }), `${did}: the line is ${shownMetres(length)} long now.`);
    } catch (error) {
      say((error as Error).message.replace(/^options\./, ''));
    }
  };
  return (
    <>
      <h3>The whole line</h3>
      <p class="quiet">Each makes a new line, whose legs can't be changed any more; undo brings them back.</p>
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
          ['Outside of corners', 'join', 'round', 'mitre', 'bevel'],
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
    </>
  );
}

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
