const addresses = new WeakMap<Blob, string>();

/** The address under which this page shows a file, as long as it is open: a picture as large as any is not copied into it. */
export function addressOf(file: Blob): string {
  const address = addresses.get(file) ?? URL.createObjectURL(file);
  addresses.set(file, address);
  return address;
}
