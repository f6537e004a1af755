// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids them raw inside strings (RFC 8259, section 7)
const string = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*"/y;
const scalar = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const blank = /[ \t\r\n]*/y;

/**
 * Offset of the first character at which a text stops being JSON (RFC 8259); its length where it ends too soon.
 *
 * Engines word this differently, and some name no place.
 */
export function jsonFault(text: string): number {
  const open: ('{' | '[')[] = [];
  let at = 0;
  const take = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    if (!pattern.test(text)) return false;
    at = pattern.lastIndex;
    return true;
  };
  // what may stand next: a value, a key, or what follows a value; `fresh` just after an opening bracket
  let next: 'value' | 'key' | 'after' = 'value';
  let fresh = false;
  while (true) {
    take(blank);
    const char = text[at];
    if (char === undefined) return at;
    const innermost = open.at(-1);
    const closes = innermost !== undefined && char === (innermost === '{' ? '}' : ']');
    if (closes && (next === 'after' || fresh)) {
      open.pop();
      at++;
      next = 'after';
      fresh = false;
    } else if (next === 'after') {
      if (innermost === undefined || char !== ',') return at;
      at++;
      next = innermost === '{' ? 'key' : 'value';
    } else if (next === 'key') {
      fresh = false;
      if (!take(string)) return at;
      take(blank);
      if (text[at] !== ':') return at;
      at++;
      next = 'value';
    } else if (char === '{' || char === '[') {
      open.push(char);
      at++;
      next = char === '{' ? 'key' : 'value';
      fresh = true;
    } else {
      fresh = false;
      if (!take(string) && !take(scalar)) return at;
      next = 'after';
    }
  }
}
