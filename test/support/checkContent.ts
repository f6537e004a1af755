/** What a document is held against: a namespace and, for each element, what may stand in it in order. */
export interface ContentModel {
  readonly namespace: string;
  readonly content: Readonly<Record<string, readonly string[]>>;
  readonly attributes: Readonly<Record<string, readonly string[]>>;
  /** By element and attribute, a blank between. */
  readonly values?: Readonly<Record<string, RegExp>>;
  /** By element, or by parent and element, a blank between, where it differs there. */
  readonly leaves: Readonly<Record<string, RegExp>>;
}

/** Everything in a document that does not follow the model; elements of other namespaces may stand in `extensions`. */
export function checkContent(root: Element, model: ContentModel): string[] {
  const wrong: string[] = [];
  const visit = (element: Element) => {
    const name = element.localName;
    if (element.namespaceURI !== model.namespace) {
      wrong.push(`${name} is of ${element.namespaceURI}`);
      return;
    }
    if (name === 'extensions') {
      for (const child of element.children)
        if (child.namespaceURI === model.namespace) wrong.push(`${child.localName} in extensions`);
      return;
    }
    const attributes = [...element.attributes]
      .map((attribute) => attribute.name)
      .filter((key) => !key.startsWith('xmlns'));
    const expected = model.attributes[name] ?? [];
    if ([...attributes].sort().join() !== [...expected].sort().join())
      wrong.push(`${name} has attributes ${attributes}`);
    for (const key of attributes) {
      const value = element.getAttribute(key) ?? '';
      if (model.values?.[`${name} ${key}`]?.test(value) === false) wrong.push(`${name} ${key}: ${value}`);
    }
    const order = model.content[name];
    if (order === undefined) {
      if (element.children.length > 0) wrong.push(`${name} holds elements`);
      const leaf = model.leaves[`${element.parentElement?.localName} ${name}`] ?? model.leaves[name];
      if (leaf && !leaf.test(element.textContent ?? '')) wrong.push(`${name}: ${element.textContent}`);
      return;
    }
    let at = 0;
    let before = '';
    for (const child of element.children) {
      const stands = (entry: string) => entry.replace('*', '').split('|').includes(child.localName);
      while (at < order.length && !stands(order[at])) at++;
      if (at === order.length) wrong.push(`${child.localName} out of place in ${name}`);
      else if (child.localName === before && !order[at].endsWith('*'))
        wrong.push(`${child.localName} twice in ${name}`);
      before = child.localName;
      visit(child);
    }
    if ([...element.childNodes].some((node) => node.nodeType === 3 && (node.textContent ?? '').trim() !== ''))
      wrong.push(`text in ${name}`);
  };
  visit(root);
  return wrong;
}
