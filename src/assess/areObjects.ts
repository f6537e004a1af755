/** Whether each of some values is a list of objects, with nothing else among them. */
export function areObjects(lists: readonly unknown[]): boolean {
  return lists.every((list) => Array.isArray(list) && list.every((one) => typeof one === 'object' && one !== null));
}
